//! xlsx and xlsm: finds the parts of the workbook and reads its sheets as streams of cells.

mod strings;
mod styles;

use super::gather::{Budget, Gather};
use super::open::Refusal;
use super::package::{Package, damaged};
use super::xml::{attribute, flag, next, reader};
use super::{Reading, sheet_xml};
use quick_xml::events::Event;
use std::collections::{HashMap, HashSet};
use std::sync::Arc;

/// Most sheets of one workbook (common practice, no source).
const MOST_SHEETS: usize = 1_024;

/// What a relation of one part to another says: the last word of its type, and the part.
struct Relation {
    kind: String,
    part: String,
}

/// A sheet as the workbook lists it.
struct Listed {
    name: String,
    hidden: bool,
    relation: Option<String>,
}

/// The part that holds the workbook, if the package is one of spreadsheets.
///
/// # Errors
/// When the package's list of relations is damaged.
pub(super) fn workbook_part(package: &mut Package<'_>) -> Result<Option<String>, Refusal> {
    let stated = relations(package, "", "_rels/.rels")?
        .into_values()
        .find(|relation| relation.kind == "officeDocument")
        .map(|relation| relation.part)
        .filter(|part| package.has(part));
    let usual = ["xl/workbook.xml", "xl/workbook.bin"]
        .into_iter()
        .find(|part| package.has(part));
    Ok(stated.or_else(|| usual.map(str::to_string)))
}

/// Reads the workbook whose main part is `workbook`.
///
/// # Errors
/// When a part is damaged, missing, encrypted or too large.
pub(super) fn read(
    file: &Arc<str>,
    package: &mut Package<'_>,
    workbook: &str,
) -> Result<Reading, Refusal> {
    let (folder, name) = workbook.rsplit_once('/').unwrap_or(("", workbook));
    let relations = relations(
        package,
        folder,
        &join(folder, &format!("_rels/{name}.rels")),
    )?;
    let (listed, from_1904) = listed(package, workbook)?;
    let of_kind = |kind: &str, usual: &str| {
        let stated = relations.values().find(|relation| relation.kind == kind);
        stated.map_or_else(|| join(folder, usual), |relation| relation.part.clone())
    };
    let mut budget = Budget::new();
    let book = sheet_xml::Book {
        strings: strings::read(
            package,
            &of_kind("sharedStrings", "sharedStrings.xml"),
            &mut budget,
        )?,
        formats: styles::read(package, &of_kind("styles", "styles.xml"))?,
        from_1904,
    };
    let pictures = package.has_folder(&format!("{}/media/", folder.to_lowercase()));
    let mut sheets = Vec::new();
    let mut remarks = Vec::new();
    let mut seen = HashSet::new();
    for (index, sheet) in listed.into_iter().enumerate() {
        let relation = sheet.relation.as_ref().and_then(|id| relations.get(id));
        let kind = relation.map_or("worksheet", |relation| relation.kind.as_str());
        if kind != "worksheet" {
            remarks.push(format!(
                "sheet \"{}\" holds no cells (a chart or macro sheet) and was not read",
                sheet.name
            ));
            continue;
        }
        let part = relation.map_or_else(
            || join(folder, &format!("worksheets/sheet{}.xml", index + 1)),
            |relation| relation.part.clone(),
        );
        if !seen.insert(part.to_lowercase()) {
            return Err(damaged("two sheets share one part"));
        }
        let Some(source) = package.part(&part)? else {
            return Err(damaged(format!(
                "sheet \"{}\" is missing from the file",
                sheet.name
            )));
        };
        let mut gather = Gather::new(file, &sheet.name, sheet.hidden);
        sheet_xml::read(
            reader(source),
            &book,
            &mut gather,
            &mut budget,
            &mut remarks,
        )?;
        if gather.is_empty() && pictures && !sheet.hidden {
            remarks.push(format!(
                "sheet \"{}\" holds no cells and the file holds pictures: a list that was pasted as a picture cannot be read",
                sheet.name
            ));
        }
        sheets.push(gather.finish(&mut remarks));
    }
    Ok(("workbook (xlsx)".to_string(), sheets, remarks))
}

/// The sheets in the workbook's order, and whether its days count from 1904.
fn listed(package: &mut Package<'_>, workbook: &str) -> Result<(Vec<Listed>, bool), Refusal> {
    let Some(source) = package.part(workbook)? else {
        return Err(damaged("its main part is missing"));
    };
    let mut xml = reader(source);
    let mut buffer = Vec::new();
    let mut found = Vec::new();
    let mut from_1904 = false;
    loop {
        match next(&mut xml, &mut buffer)? {
            Event::Start(element) => match element.local_name().as_ref() {
                "sheet" => {
                    if found.len() >= MOST_SHEETS {
                        return Err(damaged(format!("more than {MOST_SHEETS} sheets")));
                    }
                    found.push(Listed {
                        name: attribute(&element, "name").unwrap_or_default(),
                        hidden: attribute(&element, "state")
                            .is_some_and(|state| state != "visible"),
                        relation: attribute(&element, "id"),
                    });
                }
                "workbookPr" => from_1904 = flag(&element, "date1904"),
                _ => {}
            },
            Event::Eof => return Ok((found, from_1904)),
            _ => {}
        }
    }
}

/// The relations of a part by their id. `folder` is the part's folder, which relative targets start from.
fn relations(
    package: &mut Package<'_>,
    folder: &str,
    part: &str,
) -> Result<HashMap<String, Relation>, Refusal> {
    let mut found = HashMap::new();
    let Some(source) = package.part(part)? else {
        return Ok(found);
    };
    let mut xml = reader(source);
    let mut buffer = Vec::new();
    loop {
        match next(&mut xml, &mut buffer)? {
            Event::Start(element) if element.local_name().as_ref() == "Relationship" => {
                let (Some(id), Some(target)) =
                    (attribute(&element, "Id"), attribute(&element, "Target"))
                else {
                    continue;
                };
                let kind = attribute(&element, "Type").unwrap_or_default();
                let kind = kind.rsplit('/').next().unwrap_or_default().to_string();
                found.insert(
                    id,
                    Relation {
                        kind,
                        part: join(folder, &target),
                    },
                );
            }
            Event::Eof => return Ok(found),
            _ => {}
        }
    }
}

/// A target seen from a folder: absolute from the package's root, `..` goes up.
fn join(folder: &str, target: &str) -> String {
    let target = target.replace('\\', "/");
    let from = if target.starts_with('/') { "" } else { folder };
    let mut path: Vec<&str> = Vec::new();
    for step in from.split('/').chain(target.split('/')) {
        match step {
            "" | "." => {}
            ".." => drop(path.pop()),
            step => path.push(step),
        }
    }
    path.join("/")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Targets of relations: ECMA-376 part 2, 9.3.2.2.
    #[test]
    fn targets_are_seen_from_their_folder() {
        for (folder, target, part) in [
            ("xl", "worksheets/sheet1.xml", "xl/worksheets/sheet1.xml"),
            (
                "xl",
                "/xl/worksheets/sheet1.xml",
                "xl/worksheets/sheet1.xml",
            ),
            ("xl", "../data/a.xml", "data/a.xml"),
            ("", "xl\\workbook.xml", "xl/workbook.xml"),
            ("xl", "../../../a.xml", "a.xml"),
        ] {
            assert_eq!(join(folder, target), part);
        }
    }
}
