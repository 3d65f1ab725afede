//! The parts of an xlsx workbook: which hold sheets, texts and styles, and whether calamine would find them.

use crate::read::open::Refusal;
use crate::read::package::{Package, damaged};
use crate::read::xml::{attribute, is_yes, next, reader};
use quick_xml::events::Event;
use std::collections::{HashMap, HashSet};

/// Most sheets of one workbook (common practice, no source).
const MOST_SHEETS: usize = 1_024;

/// What a relation of one part to another says: the last word of its type, and the part.
struct Relation {
    kind: String,
    part: String,
    /// The part stands below the folder or the root as the target says, without detours.
    direct: bool,
}

/// A sheet as the workbook lists it.
struct Listed {
    name: String,
    hidden: bool,
    relation: Option<String>,
}

/// A sheet of cells and the part that holds it.
pub(super) struct Part {
    pub(super) name: String,
    pub(super) hidden: bool,
    pub(super) part: String,
}

/// The parts of a workbook.
pub(super) struct Parts {
    pub(super) strings: String,
    pub(super) styles: String,
    pub(super) theme: String,
    pub(super) sheets: Vec<Part>,
    /// Days count from 1904 instead of 1900.
    pub(super) from_1904: bool,
    /// Everything stands where calamine looks for it.
    pub(super) usual: bool,
}

/// The part that holds the workbook, if the package is one of spreadsheets.
///
/// # Errors
/// When the package's list of relations is damaged.
pub(in crate::read) fn workbook_part(package: &mut Package<'_>) -> Result<Option<String>, Refusal> {
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

/// The parts of the workbook whose main part is `workbook`. Sheets without cells are left out and said.
///
/// # Errors
/// When a part is damaged or missing.
pub(super) fn list(
    package: &mut Package<'_>,
    workbook: &str,
    remarks: &mut Vec<String>,
) -> Result<Parts, Refusal> {
    let (folder, name) = workbook.rsplit_once('/').unwrap_or(("", workbook));
    let relations = relations(
        package,
        folder,
        &join(folder, &format!("_rels/{name}.rels")),
    )?;
    let (listed, date_system) = listed(package, workbook)?;
    let of_kind = |kind: &str, usual: &str| {
        let stated = relations.values().find(|relation| relation.kind == kind);
        stated.map_or_else(|| join(folder, usual), |relation| relation.part.clone())
    };
    let mut parts = Parts {
        strings: of_kind("sharedStrings", "sharedStrings.xml"),
        styles: of_kind("styles", "styles.xml"),
        theme: join(folder, "theme/theme1.xml"),
        sheets: Vec::new(),
        from_1904: date_system.as_deref().is_some_and(is_yes),
        usual: only_main_part(package, workbook)?,
    };
    let same = |part: &str, usual: &str| part.eq_ignore_ascii_case(&join(folder, usual));
    parts.usual &= same(&parts.strings, "sharedStrings.xml")
        && same(&parts.styles, "styles.xml")
        && date_system.is_none_or(|value| matches!(value.as_str(), "0" | "1" | "true" | "false"));
    let (mut seen, mut names) = (HashSet::new(), HashSet::new());
    for (index, sheet) in listed.into_iter().enumerate() {
        let relation = sheet.relation.as_ref().and_then(|id| relations.get(id));
        let kind = relation.map_or("worksheet", |relation| relation.kind.as_str());
        parts.usual &= names.insert(sheet.name.clone());
        if kind != "worksheet" {
            remarks.push(format!(
                "sheet \"{}\" holds no cells (a chart or macro sheet) and was not read",
                sheet.name
            ));
            continue;
        }
        parts.usual &= relation.is_some_and(|relation| relation.direct);
        let part = relation.map_or_else(
            || join(folder, &format!("worksheets/sheet{}.xml", index + 1)),
            |relation| relation.part.clone(),
        );
        if !seen.insert(part.to_lowercase()) {
            return Err(damaged("two sheets share one part"));
        }
        parts.sheets.push(Part {
            name: sheet.name,
            hidden: sheet.hidden,
            part,
        });
    }
    Ok(parts)
}

/// The package names this part as its main one, and no other.
fn only_main_part(package: &mut Package<'_>, workbook: &str) -> Result<bool, Refusal> {
    let relations = relations(package, "", "_rels/.rels")?;
    let mut main = relations
        .values()
        .filter(|relation| relation.kind == "officeDocument");
    Ok(main
        .next()
        .is_some_and(|main| main.direct && main.part == workbook)
        && main.next().is_none())
}

/// The sheets in the workbook's order, and what is said of counting days from 1904.
fn listed(
    package: &mut Package<'_>,
    workbook: &str,
) -> Result<(Vec<Listed>, Option<String>), Refusal> {
    let Some(source) = package.part(workbook)? else {
        return Err(damaged("its main part is missing"));
    };
    let mut xml = reader(source);
    let mut buffer = Vec::new();
    let mut found = Vec::new();
    let mut from_1904 = None;
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
                "workbookPr" => from_1904 = attribute(&element, "date1904").or(from_1904),
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
                let part = join(folder, &target);
                let direct = match target.strip_prefix('/') {
                    Some(absolute) => part == absolute,
                    None if folder.is_empty() => part == target,
                    None => part == format!("{folder}/{target}"),
                };
                found.insert(id, Relation { kind, part, direct });
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
