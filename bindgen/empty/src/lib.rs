//! A library with a surface of one function: what a core costs before it does anything. Measured by `tests/bench/size`.

uniffi::setup_scaffolding!();

/// Gives back what it is given.
#[uniffi::export]
pub fn same(number: u32) -> u32 {
    number
}
