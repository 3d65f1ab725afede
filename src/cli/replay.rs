//! What may be typed to `replay`.

use super::UnitsArg;
use chrono::NaiveDate;
use clap::Args;
use std::path::PathBuf;

/// Largest tolerance that a site file may have.
const MOST: f64 = 0.5;

/// What `replay` takes.
#[derive(Debug, Args)]
pub struct ReplayArgs {
    /// The other site settings [default: site.toml in this folder, else built-in defaults].
    #[arg(long, value_name = "FILE")]
    pub site: Option<PathBuf>,
    /// Fleet register in place of the one kept with each audit.
    #[arg(long, value_name = "FILE")]
    pub fleet: Option<PathBuf>,
    /// The ledger [default: the site's].
    #[arg(long, value_name = "FILE")]
    pub ledger: Option<PathBuf>,
    /// Tolerances to compare besides the site file's, with a percent sign or as parts [default: 5%,7.5%,10%,12.5%,15%,20%].
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = part)]
    pub tolerances: Vec<f64>,
    /// How far a declared weight may be off the decided one before it counts as wrong, at least the site's scale_error [default: 5%].
    #[arg(long, value_name = "PART", value_parser = part)]
    pub wrong_by: Option<f64>,
    /// First day of the audits.
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub from: Option<NaiveDate>,
    /// Last day of the audits.
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub to: Option<NaiveDate>,
    /// Part of the supplier's name.
    #[arg(long, value_name = "NAME")]
    pub supplier: Option<String>,
    /// Write a workbook: tolerances with their curves, changed lines, decided lines, what it rests on.
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Print records (NDJSON) on standard output; text goes to standard error.
    #[arg(long)]
    pub json: bool,
    /// Units of what people see [default: the site's]; how bare figures are read is the site's.
    #[arg(long, value_enum)]
    pub units: Option<UnitsArg>,
    /// Print nothing but errors.
    #[arg(long)]
    pub quiet: bool,
}

/// `7.5%`, `7.5 %` or `0.075`.
fn part(text: &str) -> Result<f64, String> {
    let text = text.trim();
    let (figure, percent) = match text.strip_suffix('%') {
        Some(figure) => (figure.trim_end(), true),
        None => (text, false),
    };
    let figure = figure.parse::<f64>().ok();
    let part = figure.map(|figure| if percent { figure / 100.0 } else { figure });
    part.filter(|part| (0.0..=MOST).contains(part))
        .ok_or_else(|| {
            "write it from 0 to 50 with a percent sign (7.5%), or as a part from 0 to 0.5 (0.075)"
                .to_string()
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tolerance_is_taken_with_its_sign_or_as_a_part() {
        for (text, expected) in [
            ("10%", Some(0.10)),
            (" 7.5 % ", Some(0.075)),
            ("0.1", Some(0.1)),
            ("0", Some(0.0)),
            ("50%", Some(0.5)),
            // Five hundred percent, or a sign left out: nobody can say.
            ("5", None),
            ("60%", None),
            ("-1%", None),
            ("NaN", None),
            ("%", None),
            ("ten", None),
        ] {
            assert_eq!(part(text).ok(), expected, "{text}");
        }
    }
}
