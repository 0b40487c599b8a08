//! From the rows' figures to the lot's: clampings, minutes, cost, price, spread, workings.

// With the mark of a test module the tests' own helpers may unwrap, as the tests may.
#[cfg(test)]
mod assembled;
#[cfg(test)]
mod bands;
#[cfg(test)]
mod checks;
#[cfg(test)]
mod clampings;
#[cfg(test)]
mod drawer;
#[cfg(test)]
mod holding;
#[cfg(test)]
mod kept;
#[cfg(test)]
mod lengths;
#[cfg(test)]
mod machines;
#[cfg(test)]
mod minutes;
#[cfg(test)]
mod money;
#[cfg(test)]
mod places;
#[cfg(test)]
mod rows;
#[cfg(test)]
mod shop;
#[cfg(test)]
mod spread;
#[cfg(test)]
mod workings;
