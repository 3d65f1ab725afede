//! What the program knows: its tables and shapes with their sources.
//! Comes in: the embedded tables. Goes out: tables of texts, on a terminal or as records. Decides nothing.

mod shapes;

use super::plain_table;
use crate::tables;
use crate::units::show;
use serde_json::{Map, Value, json};

/// Places on a line.
const WIDTH: usize = 100;
/// A column is no narrower than this where a wide table is made to fit.
const NARROWEST: usize = 4;
/// A column of texts cut below this width is hard to read.
const ROOMY: usize = 30;
/// A column that is wider than this holds texts.
const LONG: usize = 24;
/// Blanks before and between columns.
const GAP: usize = 2;

/// A table of the program.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// Its name (`materials`, `products: pipe-steel`).
    pub name: String,
    /// Names of its columns.
    pub headings: Vec<String>,
    /// Its rows, each as long as the headings.
    pub rows: Vec<Vec<String>>,
}

/// What the rows of a table rest on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Basis {
    Published,
    CommonPractice,
    FromMemory,
    /// Computed, by rule, or invented.
    Other,
}

const BASES: [(Basis, &str); 4] = [
    (Basis::Published, "published"),
    (Basis::CommonPractice, "common practice"),
    (Basis::FromMemory, "from memory"),
    (Basis::Other, "other"),
];

/// All tables: the shapes, then the embedded ones.
pub fn all() -> impl Iterator<Item = Table> {
    std::iter::once(shapes::table()).chain(tables::all().map(|(name, text)| embedded(name, text)))
}

/// The tables that a name means, as people type it: one, or all of `products`.
///
/// # Errors
/// The nearest name, where there is no such table.
pub fn named(text: &str) -> Result<Vec<Table>, String> {
    let wanted = folded(text);
    let means = |table: &Table| {
        let (group, own) = table.name.split_once(": ").unwrap_or(("", &table.name));
        [table.name.as_str(), group, own]
            .iter()
            .any(|name| !name.is_empty() && folded(name) == wanted)
    };
    let found: Vec<Table> = all().filter(means).collect();
    if !found.is_empty() {
        return Ok(found);
    }
    let like = |name: &str| strsim::jaro_winkler(&folded(name), &wanted);
    let names = all().map(|table| match table.name.split_once(": ") {
        Some((_, own)) => own.to_string(),
        None => table.name,
    });
    let nearest = names
        .chain(["products".to_string()])
        .max_by(|one, other| like(one).total_cmp(&like(other)));
    Err(nearest.unwrap_or_default())
}

/// Without case, signs between words, and the s of a plural.
fn folded(name: &str) -> String {
    let name = name.trim().to_lowercase().replace(['-', '_'], " ");
    name.strip_suffix('s').unwrap_or(&name).to_string()
}

fn embedded(name: String, text: &str) -> Table {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let owned = |record: &csv::StringRecord| record.iter().map(str::to_string).collect();
    // A malformed embedded table would be a fault of the build; the tests of each table catch it.
    let headings = reader.headers().map(owned).unwrap_or_default();
    let rows = reader.records().flatten().map(|row| owned(&row)).collect();
    Table {
        name,
        headings,
        rows,
    }
}

impl Table {
    /// Only the rows that hold all of the words, in any column, without regard to case.
    pub fn with(mut self, words: &[String]) -> Table {
        let words: Vec<String> = words.iter().map(|word| word.to_lowercase()).collect();
        self.rows.retain(|row| {
            let text = row.join(" ").to_lowercase();
            words.iter().all(|word| text.contains(word))
        });
        self
    }

    /// The table for a terminal; where long texts would leave it no room, they stand below their row.
    pub fn text(&self) -> String {
        let headings: Vec<String> = self
            .headings
            .iter()
            .map(|name| name.replace('_', " "))
            .collect();
        let natural = natural(&headings, &self.rows);
        let cut = fitted(&natural);
        let cramped = natural
            .iter()
            .zip(&cut)
            .any(|(own, cut)| cut < own && *cut < ROOMY);
        let below = |at: usize| cramped && natural[at] > LONG;
        let beside: Vec<usize> = (0..headings.len()).filter(|at| !below(*at)).collect();
        let of = |cells: &[String]| -> Vec<String> {
            beside
                .iter()
                .filter_map(|at| cells.get(*at).cloned())
                .collect()
        };
        let own: Vec<usize> = beside.iter().map(|at| natural[*at]).collect();
        let widths = fitted(&own);
        let headed = of(&headings);
        let headed: Vec<&str> = headed.iter().map(String::as_str).collect();
        let mut text = format!(
            "{}\n{}",
            self.name,
            plain_table::table(&headed, &widths, &[])
        );
        for row in &self.rows {
            plain_table::line_up(&mut text, &of(row), &widths);
            for (at, cell) in row
                .iter()
                .enumerate()
                .filter(|(at, cell)| below(*at) && !cell.is_empty())
            {
                let label = format!("      {}: ", headings[at]);
                // Lists are written without blanks, and a line breaks only at one.
                let cell = cell.replace(';', "; ");
                text.push_str(&plain_table::labelled(&label, label.len(), &cell, WIDTH));
            }
        }
        text
    }

    /// The rows as records, one a line.
    pub fn records(&self) -> String {
        let row = |row: &Vec<String>| {
            let cells = self.headings.iter().zip(row);
            let cells: Map<String, Value> = cells
                .map(|(heading, cell)| (heading.clone(), Value::from(cell.as_str())))
                .collect();
            format!("{}\n", json!({"table": self.name, "row": cells}))
        };
        self.rows.iter().map(row).collect()
    }

    fn counts(&self) -> [usize; 4] {
        BASES.map(|(basis, _)| {
            self.rows
                .iter()
                .filter(|row| self.basis(row) == basis)
                .count()
        })
    }

    /// By the column of that name, else by the words of the source.
    fn basis(&self, row: &[String]) -> Basis {
        let cell = |name: &str| {
            let at = self.headings.iter().position(|heading| heading == name)?;
            row.get(at).map(String::as_str)
        };
        let source = cell("source").unwrap_or_default();
        match cell("basis") {
            Some("published") => Basis::Published,
            Some("common practice") => Basis::CommonPractice,
            Some("from memory") => Basis::FromMemory,
            Some(_) => Basis::Other,
            None if source.contains("from memory") => Basis::FromMemory,
            None if source.contains("common practice") => Basis::CommonPractice,
            None if source.contains("invented") => Basis::Other,
            None => Basis::Published,
        }
    }
}

/// Every table with its number of rows and what they rest on.
pub fn overview() -> String {
    let figure = |count: usize| match count {
        0 => "-".to_string(),
        count => show::figure(count as f64),
    };
    let row = |table: Table| {
        let counts = table.counts().map(figure);
        let mut cells = vec![table.name.clone(), figure(table.rows.len())];
        cells.extend(counts);
        cells
    };
    let rows: Vec<Vec<String>> = all().map(row).collect();
    let mut headings = vec!["table", "rows"];
    headings.extend(BASES.map(|(_, name)| name));
    let owned: Vec<String> = headings.iter().map(ToString::to_string).collect();
    let widths = natural(&owned, &rows);
    format!(
        "{}\nWhat the rows rest on; other: computed, by a rule, or invented. Each row names its source.\n\
         dockheft tables NAME shows a table, dockheft tables NAME WORD only the rows that hold the word.\n",
        plain_table::table(&headings, &widths, &rows)
    )
}

/// The overview as records, one a line.
pub fn overview_records() -> String {
    let record = |table: Table| {
        let counts = BASES.iter().zip(table.counts());
        let counts: Map<String, Value> = counts
            .map(|((_, name), count)| (name.to_string(), Value::from(count)))
            .collect();
        format!(
            "{}\n",
            json!({"table": table.name, "rows": table.rows.len(), "basis": counts})
        )
    };
    all().map(record).collect()
}

/// As wide as the widest text of each column.
fn natural(headings: &[String], rows: &[Vec<String>]) -> Vec<usize> {
    let widest = |(at, heading): (usize, &String)| {
        let cells = rows.iter().filter_map(|row| row.get(at));
        let longest = cells.map(|cell| cell.chars().count()).max();
        // A heading may stand on several lines, a word of it on one only.
        let word = heading.split(' ').map(|word| word.chars().count()).max();
        longest.max(word).unwrap_or(0)
    };
    headings.iter().enumerate().map(widest).collect()
}

/// The widest columns cut until a line fits.
fn fitted(natural: &[usize]) -> Vec<usize> {
    let mut widths = natural.to_vec();
    let room = WIDTH.saturating_sub(GAP * (widths.len() + 1));
    while widths.iter().sum::<usize>() > room {
        match widths.iter_mut().max() {
            Some(widest) if *widest > NARROWEST => *widest -= 1,
            _ => break,
        }
    }
    widths
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_as_people_type_them() {
        let names = |text: &str| {
            named(text).map(|found| {
                found
                    .into_iter()
                    .map(|table| table.name)
                    .collect::<Vec<_>>()
            })
        };
        let one = |name: &str| Ok(vec![name.to_string()]);
        assert_eq!(names("materials"), one("materials"));
        assert_eq!(names("Material"), one("materials"));
        assert_eq!(names("pipe steel"), one("products: pipe-steel"));
        assert_eq!(names("shapes"), one("shapes"));
        assert!(names("products").is_ok_and(|found| found.len() == tables::products::ALL.len()));
        assert_eq!(names("matreials"), Err("materials".to_string()));
        assert_eq!(names("prodcts"), Err("products".to_string()));
    }

    #[test]
    fn every_row_is_counted_once_and_every_table_has_rows() {
        for table in all() {
            assert!(!table.rows.is_empty(), "{}", table.name);
            assert_eq!(table.counts().iter().sum::<usize>(), table.rows.len());
            let line = overview();
            assert!(line.contains(&table.name), "{}", table.name);
        }
    }

    #[test]
    fn a_row_is_found_by_all_its_words() {
        let materials = || embedded("materials".into(), tables::MATERIALS);
        let found = materials().with(&["REINFORCED".into(), "concrete".into()]);
        let names: Vec<&str> = found.rows.iter().map(|row| row[0].as_str()).collect();
        assert!(names.contains(&"reinforced concrete"), "{names:?}");
        assert!(found.rows.len() < materials().rows.len());
        assert!(materials().with(&["unobtainium".into()]).rows.is_empty());
    }

    #[test]
    fn a_wide_table_is_made_to_fit() {
        let text = embedded("materials".into(), tables::MATERIALS).text();
        let widest = text.lines().map(|line| line.chars().count()).max();
        assert!(widest.is_some_and(|widest| widest <= WIDTH), "{widest:?}");
        assert!(
            text.contains(" 2403 "),
            "the density of reinforced concrete stays whole"
        );
    }

    #[test]
    fn many_columns_fit_too() {
        let table = Table {
            name: "many".into(),
            headings: (0..14).map(|at| format!("heading {at}")).collect(),
            rows: vec![(0..14).map(|at| format!("cell {at} of many")).collect()],
        };
        let text = table.text();
        let widest = text.lines().map(|line| line.chars().count()).max();
        assert!(widest.is_some_and(|widest| widest <= WIDTH), "{text}");
    }

    #[test]
    fn a_row_is_one_record_with_the_names_of_its_columns() {
        let table = Table {
            name: "units".into(),
            headings: vec!["spelling".into(), "source".into()],
            rows: vec![vec!["\"".into(), "a test".into()]],
        };
        assert_eq!(
            table.records(),
            "{\"table\":\"units\",\"row\":{\"spelling\":\"\\\"\",\"source\":\"a test\"}}\n"
        );
    }
}
