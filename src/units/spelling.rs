//! How units are spelled.
