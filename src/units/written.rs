//! Written quantities.
