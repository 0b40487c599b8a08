//! A PNG as pixels on a white sheet.

use std::io::Cursor;

use png::{ColorType, Decoder, Transformations};

use super::fault::{LogoFault, MOST_PIXELS};
use super::pixels;
use crate::page::Pixels;

/// The pixels of a PNG, whatever its colors are written as; of a moving one, its first picture.
pub(super) fn read(bytes: &[u8]) -> Result<Pixels, LogoFault> {
    let mut decoder = Decoder::new(Cursor::new(bytes));
    decoder.set_transformations(Transformations::normalize_to_color8());
    // Texts and color profiles can be larger than the picture, and nothing here reads them.
    decoder.set_ignore_text_chunk(true);
    decoder.set_ignore_iccp_chunk(true);
    let header = decoder.read_header_info().map_err(damaged)?;
    let (width, height) = (header.width, header.height);
    if width > MOST_PIXELS || height > MOST_PIXELS {
        return Err(LogoFault::TooLarge { width, height });
    }
    let mut reader = decoder.read_info().map_err(damaged)?;
    let size = reader.output_buffer_size().ok_or(LogoFault::Damaged)?;
    let mut buffer = vec![0; size];
    let frame = reader.next_frame(&mut buffer).map_err(damaged)?;
    buffer.truncate(frame.buffer_size());
    let rgb = on_white(frame.color_type, &buffer);
    pixels::tidy(frame.width as usize, &rgb)
}

fn damaged(_: png::DecodingError) -> LogoFault {
    LogoFault::Damaged
}

/// Red, green and blue of each pixel, as it looks on white.
fn on_white(color: ColorType, samples: &[u8]) -> Vec<u8> {
    let over = |part: u8, alpha: u8| {
        let (part, alpha) = (u32::from(part), u32::from(alpha));
        ((part * alpha + 255 * (255 - alpha) + 127) / 255) as u8
    };
    match color {
        ColorType::Grayscale => samples.iter().flat_map(|gray| [*gray; 3]).collect(),
        ColorType::GrayscaleAlpha => {
            let pixels = samples.chunks_exact(2);
            pixels
                .flat_map(|pixel| [over(pixel[0], pixel[1]); 3])
                .collect()
        }
        // The decoder makes colors of a palette's numbers.
        ColorType::Rgb | ColorType::Indexed => samples.to_vec(),
        ColorType::Rgba => {
            let pixels = samples.chunks_exact(4);
            pixels
                .flat_map(|pixel| [0, 1, 2].map(|part| over(pixel[part], pixel[3])))
                .collect()
        }
    }
}
