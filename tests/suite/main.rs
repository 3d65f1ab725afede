//! The integration suite: the program as a user meets it, from a file's bytes to its records, workbook and exit status.

mod call;
mod command_line;
mod deliveries;
mod demo;
mod files;
mod hazards;
mod helper;
mod properties;
mod published;
mod random_input;
mod records;
mod shapes;
mod tables;
mod tidy;
mod trucks;
mod weigh;
mod weigh_published;
mod weigh_shapes;
mod weigh_shown;
mod workbook;
mod writing;
