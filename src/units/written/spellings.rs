//! Spellings that suppliers use, each with what a careful clerk reads. Where nothing tells, the figure says so.
//! The spellings are those collected in the trade vocabulary: common practice, no source. The values follow by hand from
//! exact factors (NIST Handbook 44, Appendix C: 1 in = 25.4 mm, 1 ft = 12 in, 1 yd = 36 in, 1 lb = 0.45359237 kg).

mod counts;
mod lengths;
mod masses;
mod no_masses;
mod signs;
