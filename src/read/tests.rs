//! Files as suppliers send them, hazard by hazard. The faults are those reported against general spreadsheet readers; the
//! lists themselves are made up.

mod html;
mod ods;
mod properties;
mod refused;
mod text;
mod xls;
mod xlsx;
mod xlsx_plain;
