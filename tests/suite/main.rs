//! The integration suite: the program as a user meets it, from a file's bytes to its records, workbook and exit status.

mod call;
mod command_line;
mod deliveries;
mod demo;
mod descriptions;
mod files;
mod fleet;
mod fleet_lifts;
mod hazards;
mod helper;
mod odds;
mod properties;
mod published;
mod random_input;
mod records;
mod seeded;
mod tables;
mod tidy;
mod trucks;
mod weigh;
mod weigh_published;
mod weigh_shown;
mod workbook;
mod writing;
