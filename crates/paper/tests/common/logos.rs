//! Invented logos.

use std::sync::Arc;

use png::{BitDepth, ColorType, Encoder};
use quillbore_job::shop::Logo;

/// A mark of shapes and lines in full colors, with a style sheet, turned groups, a symbol used five
/// times and a clip around it all: 240 x 80, of which 200 x 60 are drawn.
pub const PLAIN: &str = r##"<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd" [
  <!ENTITY ns_svg "http://www.w3.org/2000/svg">
]>
<svg xmlns="&ns_svg;" xmlns:xlink="http://www.w3.org/1999/xlink" width="60mm" height="20mm" viewBox="0 0 240 80">
  <title>An invented mark</title>
  <style>.plate { fill: #a8431f } .hole { fill: #fff } .word path { fill: none; stroke: #1c2b39; stroke-width: 6 }</style>
  <defs>
    <symbol id="hole" overflow="visible"><circle class="hole" cx="0" cy="0" r="5"/></symbol>
    <clipPath id="all"><rect width="240" height="80"/></clipPath>
    <text id="note">drawn nowhere</text>
  </defs>
  <g clip-path="url(#all)">
    <rect width="240" height="80" fill="white"/>
    <rect class="plate" x="20" y="10" width="60" height="60" rx="12"/>
    <g transform="translate(50 40) rotate(45)">
      <use xlink:href="#hole"/>
      <use xlink:href="#hole" x="18"/>
      <use xlink:href="#hole" x="-18"/>
      <use xlink:href="#hole" y="18"/>
      <use href="#hole" transform="translate(0 -18)"/>
    </g>
    <g class="word" transform="translate(92 40)">
      <path d="M26 -20 A20 20 0 1 0 26 20"/>
      <path d="M42 -24 V18 H64" stroke-linejoin="round" stroke-linecap="butt"/>
      <path d="M74 0 H128" stroke-dasharray="10 6"/>
    </g>
  </g>
</svg>
"##;

/// A mark with a gradient and a half transparent shape: 120 x 60.
pub const PAINTED: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 120 60">
  <linearGradient id="fade"><stop offset="0" stop-color="#0a4"/><stop offset="1" stop-color="#034"/></linearGradient>
  <rect width="120" height="60" fill="url(#fade)"/>
  <circle cx="60" cy="30" r="20" fill="white" opacity="0.5"/>
</svg>
"##;

/// A logo of a file's bytes.
pub fn logo(bytes: impl Into<Vec<u8>>) -> Arc<Logo> {
    Arc::new(Logo::new(bytes.into()).unwrap())
}

/// An SVG of 100 x 50 with something in it.
pub fn svg(inside: &str) -> Arc<Logo> {
    let head = "<svg xmlns='http://www.w3.org/2000/svg' \
                xmlns:xlink='http://www.w3.org/1999/xlink' viewBox='0 0 100 50'>";
    logo(format!("{head}{inside}</svg>"))
}

/// A PNG of samples.
pub fn png(size: (u32, u32), color: ColorType, depth: BitDepth, samples: &[u8]) -> Arc<Logo> {
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, size.0, size.1);
    encoder.set_color(color);
    encoder.set_depth(depth);
    if color == ColorType::Indexed {
        // Half seen green, black, and a blue.
        encoder.set_palette(vec![0, 200, 0, 0, 0, 0, 20, 40, 160]);
        encoder.set_trns(vec![128]);
    }
    let mut writer = encoder.write_header().unwrap();
    writer.write_image_data(samples).unwrap();
    writer.finish().unwrap();
    logo(bytes)
}
