//! Sizes as written, each with its fineness.

use crate::units::Length;
use serde::{Deserialize, Serialize};

/// One size with the fineness it was written in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Size1 {
    /// The size.
    pub length: Length,
    /// Half of the last stated digit.
    pub half_digit: Length,
    /// Three or more significant figures.
    pub fine: bool,
}

/// The sizes of a line as written; only what is known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sizes {
    /// Length.
    pub length: Option<Size1>,
    /// Width.
    pub width: Option<Size1>,
    /// Height or thickness.
    pub height: Option<Size1>,
    /// Outside diameter.
    pub outside: Option<Size1>,
    /// Inside diameter.
    pub inside: Option<Size1>,
    /// Wall thickness.
    pub wall: Option<Size1>,
}

/// A size of the description that only some shapes have ("flange 75 x 11", "top dia 300").
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FurtherSize {
    /// What it is.
    pub which: super::described::Further,
    /// The size.
    pub size: Size1,
    /// The second figure, where two stand together.
    pub second: Option<Size1>,
}

/// Whether sizes are those of one piece or of the package.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum SizeOf {
    /// One piece.
    Piece,
    /// The package (crate, pallet, bundle).
    Package,
}
