//! Whole-register checks.
