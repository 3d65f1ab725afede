//! The tables people maintain: CSV with a source column, embedded in the binary.

pub mod products;
