//! Tests of supplier layouts.
