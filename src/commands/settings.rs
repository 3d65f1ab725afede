//! The settings of a call, checked against what the program knows of its findings.

use crate::error::Error;
use crate::judge;
use crate::site::{self, Site};
use std::path::{Path, PathBuf};

/// The settings of `named`, else of `site.toml` in this folder, else the defaults; and the file they came from.
///
/// # Errors
/// [`Error::Site`] when the file cannot be read, says something that is not understood, or switches off what must stay on.
pub(super) fn find(named: Option<&Path>) -> Result<(Site, Option<PathBuf>), Error> {
    let (site, file) = site::find(named)?;
    judge::may_be_off(&site.rules_off).map_err(|(found, remedy)| Error::Site {
        file: file.clone().unwrap_or_default(),
        found,
        remedy,
    })?;
    Ok((site, file))
}
