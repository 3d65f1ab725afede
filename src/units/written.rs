//! Written quantities: figures, lengths and masses as suppliers type them.
//! Comes in: text and the decimal habit of its column. Goes out: figures with the fineness they were written in.

mod figure;
mod fold;
mod length;
mod mass;

pub use figure::{Decimal, Figure, scan_figure};
pub use fold::fold;
pub use length::{WrittenLength, length, scan_length};
pub use mass::{MassText, mass};

/// The text without the spaces around it and in it repeated.
pub fn tidy(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
