//! Written quantities: figures, lengths and masses as suppliers type them.
//! Comes in: text and the decimal habit of its column. Goes out: figures with the fineness they were written in.

mod count;
mod figure;
mod fold;
mod length;
mod mass;
#[cfg(test)]
mod spellings;
mod words;

pub use count::{WrittenCount, count, multiple};
pub use figure::{Decimal, Figure, scan_figure};
pub use fold::fold;
pub use length::{WrittenLength, length, scan_length};
pub use mass::{MassText, Of, mass};

/// The text without the spaces around it and in it repeated.
pub fn tidy(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
