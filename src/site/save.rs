//! Keeping a supplier's layout: its section is put behind what the site file holds, every byte of which stays.

use super::supplier::{ColumnLayout, SupplierLayout, folded};
use super::{Site, file};
use crate::error::Error;
use std::fmt::Write;
use std::path::Path;

/// A column of a layout to be kept.
#[derive(Clone, Debug, PartialEq)]
pub struct NewColumn {
    /// The heading as written.
    pub heading: String,
    /// What it holds.
    pub layout: ColumnLayout,
    /// What the person who edits the file must know about it.
    pub note: Option<String>,
}

/// A layout to be kept.
#[derive(Clone, Debug, PartialEq)]
pub struct NewLayout {
    /// The supplier's name at this site.
    pub name: String,
    /// What the supplier's lists call it, where that is another name.
    pub names: Vec<String>,
    /// Headings that a table must have to be known as the supplier's.
    pub headings: Vec<String>,
    /// Columns in the list's order; those of no use are written as comments.
    pub columns: Vec<NewColumn>,
    /// The file it was learnt from.
    pub from: String,
}

/// What became of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Saved {
    /// Its section was added.
    Added,
    /// The very same section was there already.
    Already,
}

impl NewLayout {
    /// The layout that its section says.
    pub fn layout(&self) -> SupplierLayout {
        SupplierLayout {
            names: self.names.clone(),
            headings: self.headings.clone(),
            columns: self
                .columns
                .iter()
                .filter(|column| is_used(column))
                .map(|column| (column.heading.clone(), column.layout.clone()))
                .collect(),
        }
    }

    /// Adds its section to a site file, which is made where there is none.
    ///
    /// # Errors
    /// [`Error::Site`] when the file cannot be read, used or written, or has another layout of that name.
    pub fn save(&self, path: &Path) -> Result<Saved, Error> {
        let failed = |found: String, remedy: &str| Error::Site {
            file: path.to_path_buf(),
            found,
            remedy: remedy.to_string(),
        };
        let before = match std::fs::read_to_string(path) {
            Ok(text) => text,
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => String::new(),
            Err(error) => {
                return Err(failed(
                    format!("cannot be read ({error})"),
                    "nothing was saved; check the name",
                ));
            }
        };
        let parsed = |text: &str| {
            file::parse(text)
                .map_err(|(found, remedy)| failed(found, &format!("nothing was saved; {remedy}")))
        };
        if let Some((name, there)) = of_name(&parsed(&before)?, &self.name) {
            return if *there == self.layout() {
                Ok(Saved::Already)
            } else {
                Err(failed(
                    format!("holds another layout for the supplier \"{name}\""),
                    "nothing was saved; edit that section, or take it out and save again",
                ))
            };
        }
        let after = self.behind(&before);
        let kept = parsed(&after)?;
        if kept.supplier.get(&self.name) != Some(&self.layout()) {
            return Err(failed(
                "would not give the layout back as it was saved".to_string(),
                "nothing was saved; write the section by hand",
            ));
        }
        replace(path, &after).map_err(|error| {
            failed(
                format!("cannot be written ({error})"),
                "nothing was saved; check that file and folder may be written",
            )
        })?;
        Ok(Saved::Added)
    }

    /// A site file's text with the section behind it.
    fn behind(&self, before: &str) -> String {
        let mut text = before.to_string();
        if !text.is_empty() {
            text.push_str(if text.ends_with('\n') { "\n" } else { "\n\n" });
        }
        text.push_str(&self.section());
        text
    }

    fn section(&self) -> String {
        let name = quoted(&self.name);
        let list = |texts: &[String]| {
            let texts: Vec<String> = texts.iter().map(|text| quoted(text)).collect();
            texts.join(", ")
        };
        let mut text = format!(
            "# How the lists of this supplier are read, learnt from {}.\n",
            comment(&self.from)
        );
        text.push_str("# A column may say: field, unit, of (line, piece, package, metre, foot), kind (net, gross, net and gross).\n");
        // Writing to a string does not fail.
        let _ = writeln!(text, "[supplier.{name}]");
        if !self.names.is_empty() {
            text.push_str("# What the lists call the supplier.\n");
            let _ = writeln!(text, "names = [{}]", list(&self.names));
        }
        text.push_str("# A list that has all of these headings is the supplier's.\n");
        let _ = writeln!(text, "headings = [{}]", list(&self.headings));
        let _ = writeln!(text, "\n[supplier.{name}.columns]");
        for column in &self.columns {
            let words: Vec<String> = column
                .layout
                .words()
                .map(|(key, word)| format!("{key} = {}", quoted(word)))
                .collect();
            let off = if is_used(column) { "" } else { "# " };
            let _ = write!(
                text,
                "{off}{} = {{ {} }}",
                quoted(&column.heading),
                words.join(", ")
            );
            if let Some(note) = &column.note {
                let _ = write!(text, " # {}", comment(note));
            }
            text.push('\n');
        }
        text
    }
}

fn is_used(column: &NewColumn) -> bool {
    column.layout.field != Some("not used")
}

/// The layout of a name, however the name is written.
fn of_name<'a>(site: &'a Site, name: &str) -> Option<(&'a String, &'a SupplierLayout)> {
    site.supplier
        .iter()
        .find(|(known, _)| folded(known) == folded(name))
}

/// A basic string of TOML.
fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for sign in text.chars() {
        match sign {
            '"' | '\\' => quoted.extend(['\\', sign]),
            sign if sign.is_control() => {
                let _ = write!(quoted, "\\u{:04X}", sign as u32);
            }
            sign => quoted.push(sign),
        }
    }
    quoted.push('"');
    quoted
}

/// A text that stays on its comment's line.
fn comment(text: &str) -> String {
    text.chars()
        .map(|sign| if sign.is_control() { ' ' } else { sign })
        .collect()
}

/// Writes a file whole or not at all, with the permissions it had; a link's target is written, not the link.
fn replace(path: &Path, text: &str) -> std::io::Result<()> {
    let path = match path.canonicalize() {
        Ok(path) => path,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => path.to_path_buf(),
        Err(error) => return Err(error),
    };
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or(Path::new("."));
    let mut temporary = tempfile::NamedTempFile::new_in(folder)?;
    std::io::Write::write_all(&mut temporary, text.as_bytes())?;
    match std::fs::metadata(&path) {
        Ok(there) => temporary.as_file().set_permissions(there.permissions())?,
        Err(_) => readable(temporary.as_file())?,
    }
    temporary.as_file().sync_all()?;
    temporary.persist(&path).map_err(|error| error.error)?;
    Ok(())
}

/// A temporary file is private; settings are for everybody who may read the folder.
#[cfg(unix)]
fn readable(file: &std::fs::File) -> std::io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    file.set_permissions(std::fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn readable(_file: &std::fs::File) -> std::io::Result<()> {
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn new(unit: &str) -> NewLayout {
        let layout = |words: &[(&str, &str)]| {
            let words = words
                .iter()
                .map(|(key, word)| (key.to_string(), word.to_string()));
            ColumnLayout::try_from(words.collect::<std::collections::BTreeMap<_, _>>())
                .expect("known words")
        };
        let column = |heading: &str, layout: ColumnLayout, note: Option<&str>| NewColumn {
            heading: heading.into(),
            layout,
            note: note.map(str::to_string),
        };
        NewLayout {
            name: "Bramble \"B\" Steelworks".into(),
            names: vec!["BRAMBLE".into()],
            headings: vec!["Goods".into(), "Weight\u{1b}".into(), "Ø \\ 2\"".into()],
            columns: vec![
                column("Goods", layout(&[("field", "description")]), None),
                column(
                    "Weight\u{1b}",
                    layout(&[("field", "declared weight"), ("unit", unit)]),
                    Some("ask\nof what"),
                ),
                column("Ø \\ 2\"", layout(&[("field", "not used")]), None),
            ],
            from: "monday\n[list].csv".into(),
        }
    }

    #[test]
    fn what_the_file_held_stays_byte_for_byte() {
        for before in [
            "",
            "# yard\r\nname = 'yard' # ours\r\n",
            "name = \"yard\"\n[tolerance_by_group]\nwood = 0.15 # swells",
        ] {
            let folder = tempfile::tempdir().expect("a folder");
            let path = folder.path().join("site.toml");
            if !before.is_empty() {
                std::fs::write(&path, before).expect("written");
            }
            assert_eq!(new("lb").save(&path).expect("saved"), Saved::Added);
            let text = std::fs::read_to_string(&path).expect("read");
            assert!(text.starts_with(before), "{text}");
            let site = file::parse(&text).expect("a site file");
            assert_eq!(
                site.supplier.get("Bramble \"B\" Steelworks"),
                Some(&new("lb").layout())
            );
            assert!(
                text.contains("# \"Ø \\\\ 2\\\"\" = { field = \"not used\" }\n"),
                "{text}"
            );
            assert_eq!(
                site.supplier
                    .values()
                    .next()
                    .map(|layout| layout.columns.len()),
                Some(2)
            );
        }
    }

    #[test]
    fn a_name_is_not_given_twice() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("site.toml");
        assert_eq!(new("lb").save(&path).expect("saved"), Saved::Added);
        let text = std::fs::read_to_string(&path).expect("read");
        assert_eq!(new("lb").save(&path).expect("the same"), Saved::Already);
        let renamed = NewLayout {
            names: vec!["BRAMBLE YARD".into()],
            ..new("lb")
        };
        assert!(renamed.save(&path).is_err(), "its name would be lost");
        let other = NewLayout {
            name: "BRAMBLE \"b\"  steelworks".into(),
            ..new("kg")
        };
        let error = other.save(&path).expect_err("refused").to_string();
        assert!(
            error.contains("another layout") && error.contains("nothing was saved"),
            "{error}"
        );
        assert_eq!(
            std::fs::read_to_string(&path).expect("read"),
            text,
            "untouched"
        );
    }

    #[test]
    fn a_file_that_is_not_understood_is_left_alone() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("site.toml");
        for text in [
            "name = ",
            "tolerence = 0.1\n",
            "supplier = { Other = { headings = [] } }\n",
        ] {
            std::fs::write(&path, text).expect("written");
            assert!(new("lb").save(&path).is_err(), "{text}");
            assert_eq!(std::fs::read_to_string(&path).expect("read"), text);
        }
    }
}
