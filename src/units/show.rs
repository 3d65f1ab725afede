//! How quantities are shown.
