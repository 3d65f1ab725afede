//! The fleet register that a command works with.

use crate::error::Error;
use crate::fleet::{Fleet, register};
use crate::read::{self, RawFile};
use crate::site::Site;
use std::path::{Path, PathBuf};

/// The register's file: the one named, else the site's (relative to the site file), else none.
pub fn path(named: Option<&Path>, site: &Site, site_file: Option<&Path>) -> Option<PathBuf> {
    let of_site = || {
        let folder = site_file.and_then(Path::parent).unwrap_or(Path::new(""));
        site.fleet.as_ref().map(|name| folder.join(name))
    };
    named.map(Path::to_path_buf).or_else(of_site)
}

/// The register's bytes.
///
/// # Errors
/// [`Error::Fleet`] when it cannot be read at all.
pub fn read(path: &Path) -> Result<RawFile, Error> {
    with_bytes(path).map(|(file, _)| file)
}

/// The same with the bytes, as they were read.
///
/// # Errors
/// As [`read`].
pub fn with_bytes(path: &Path) -> Result<(RawFile, Vec<u8>), Error> {
    read::with_bytes(path).map_err(|error| match error {
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
    })
}

/// The register as understood; its faults are worded in the units that people see.
pub fn understood(raw: &RawFile, site: &Site) -> Fleet {
    let mut fleet = register::understand(&raw.sheets, site.units);
    fleet.file = raw.name.to_string();
    fleet
}
