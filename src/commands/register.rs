//! The fleet register that a command works with.

use crate::error::Error;
use crate::fleet::{Fleet, register};
use crate::read;
use crate::site::Site;
use std::path::Path;

/// The register: the one named, else the site's (relative to the site file), else none. Figures without a unit are in
/// the site's units.
///
/// # Errors
/// [`Error::Fleet`] when there is one and it cannot be read at all.
pub fn find(
    named: Option<&Path>,
    site: &Site,
    site_file: Option<&Path>,
) -> Result<Option<Fleet>, Error> {
    let path = match (named, &site.fleet) {
        (Some(path), _) => path.to_path_buf(),
        (None, Some(name)) => site_file
            .and_then(Path::parent)
            .unwrap_or(Path::new(""))
            .join(name),
        (None, None) => return Ok(None),
    };
    let raw = read::file(&path).map_err(|error| match error {
        Error::File {
            file,
            found,
            remedy,
        } => Error::Fleet {
            file,
            found,
            remedy,
        },
        other => other,
    })?;
    let mut fleet = register::understand(&raw.sheets, site.units);
    fleet.file = raw.name.to_string();
    Ok(Some(fleet))
}
