//! The folder of an export: made under a name of its own beside its place, and brought there when it is whole.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// A folder in the making.
pub(super) struct Making {
    to: PathBuf,
    path: PathBuf,
    /// Taken away, with whatever is left in it, when this ends.
    _own: TempDir,
}

impl Making {
    /// Begins a folder that is to stand at a place where there is none, or an empty one; else says what stands there.
    pub(super) fn beside(to: &Path) -> Result<Making, String> {
        // "made/." is "made"; "." and "made/.." are places that nothing can be brought to.
        let to: PathBuf = to.components().collect();
        if to.file_name().is_none() {
            return Err("this is no name of a folder".to_string());
        }
        if let Ok(there) = to.symlink_metadata() {
            if there.is_symlink() {
                return Err("what stands there is a link".to_string());
            }
            let mut held =
                fs::read_dir(&to).map_err(|_| "what stands there is no folder".to_string())?;
            if held.next().is_some() {
                return Err("the folder holds something, and an export stands alone".to_string());
            }
        }
        let own = begun(&to).map_err(|error| error.to_string())?;
        Ok(Making {
            to,
            path: own.path().join("export"),
            _own: own,
        })
    }

    /// Where it is made.
    pub(super) fn path(&self) -> &Path {
        &self.path
    }

    /// Writes a text into it.
    pub(super) fn write(&self, name: &str, text: &str) -> io::Result<()> {
        let mut file = fs::File::create_new(self.path.join(name))?;
        file.write_all(text.as_bytes())?;
        file.sync_all()
    }

    /// Brings it to its place, whole.
    pub(super) fn keep(&self) -> io::Result<()> {
        // Taken away only where it is empty: a folder that somebody filled meanwhile stays, and this fails.
        if self.to.is_dir() {
            fs::remove_dir(&self.to)?;
        }
        fs::rename(&self.path, &self.to)
    }
}

fn begun(to: &Path) -> io::Result<TempDir> {
    let folder = match to.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    fs::create_dir_all(folder)?;
    let own = tempfile::Builder::new()
        .prefix(".export-")
        .tempdir_in(folder)?;
    // A temporary folder is private; one made in it is for everybody who may read the place.
    fs::create_dir(own.path().join("export"))?;
    Ok(own)
}

/// No name. Not Hive's own word for it: where no site has a name, readers find no type for the column.
const NONE: &str = "-";
/// What Hive calls no name; it is taken for that whoever is called so.
const NONE_OF_HIVE: &str = "__HIVE_DEFAULT_PARTITION__";

/// A name as a part of a path: letters, digits, `-`, `_` and `.` stay, every other byte is percent-encoded (RFC 3986, 2.1).
/// No name is `-`; a name too long for a folder ends in a hash of it.
pub(super) fn encoded(name: &str) -> String {
    match name {
        "" => return NONE.to_string(),
        NONE => return "%2D".to_string(),
        NONE_OF_HIVE => return NONE_OF_HIVE.replacen('_', "%5F", 1),
        _ => {}
    }
    let mut encoded = String::new();
    for byte in name.bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'_' | b'.' => {
                encoded.push(byte as char)
            }
            _ => encoded.push_str(&format!("%{byte:02X}")),
        }
    }
    if encoded.len() > 200 {
        encoded.truncate(180);
        encoded.push('-');
        encoded.push_str(&crate::hash::short(name.as_bytes()));
    }
    encoded
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_safe_in_a_path() {
        for (name, folder) in [
            ("Kestrel Junction", "Kestrel%20Junction"),
            ("../a/b\\c:d", "..%2Fa%2Fb%5Cc%3Ad"),
            ("Lagerhöfe = 2", "Lagerh%C3%B6fe%20%3D%202"),
            ("", "-"),
            ("-", "%2D"),
            ("__HIVE_DEFAULT_PARTITION__", "%5F_HIVE_DEFAULT_PARTITION__"),
        ] {
            assert_eq!(encoded(name), folder);
        }
        let long = encoded(&"ö".repeat(300));
        assert!(long.len() <= 200, "{long}");
        assert_ne!(long, encoded(&"ö".repeat(301)));
    }

    #[test]
    fn a_place_that_nothing_can_be_brought_to_is_refused_before_anything_is_made() {
        let folder = tempfile::tempdir().expect("a folder");
        let at = folder.path();
        fs::create_dir(at.join("empty")).expect("a folder");
        for place in [Path::new("."), Path::new("/"), &at.join("empty/..")] {
            assert!(Making::beside(place).is_err(), "{place:?}");
        }
        #[cfg(unix)]
        {
            std::os::unix::fs::symlink(at.join("empty"), at.join("link")).expect("a link");
            for place in ["link", "link/"] {
                assert!(Making::beside(&at.join(place)).is_err(), "{place}");
            }
        }
        let made = Making::beside(&at.join("empty/.")).expect("an empty folder");
        made.write("a", "b").expect("written");
        made.keep().expect("kept");
        assert!(at.join("empty/a").is_file());
    }

    #[test]
    fn it_comes_whole_or_not_at_all_and_replaces_nothing() {
        let folder = tempfile::tempdir().expect("a folder");
        let to = folder.path().join("deep/export");
        let left = || {
            fs::read_dir(folder.path().join("deep"))
                .expect("a list")
                .count()
        };
        drop(Making::beside(&to).expect("begun"));
        assert_eq!(left(), 0, "given up");
        let made = Making::beside(&to).expect("begun");
        made.write("a", "b").expect("written");
        made.keep().expect("kept");
        drop(made);
        assert_eq!(fs::read_to_string(to.join("a")).expect("a file"), "b");
        assert_eq!(left(), 1, "nothing else is left");
        assert!(Making::beside(&to).is_err(), "it holds something");
        assert!(Making::beside(&to.join("a")).is_err(), "a file");
        // Filled by somebody else while it was made.
        let other = folder.path().join("other");
        fs::create_dir(&other).expect("a folder");
        let made = Making::beside(&other).expect("it is empty");
        fs::write(other.join("theirs"), "x").expect("a file");
        made.keep().expect_err("theirs stays");
        assert!(other.join("theirs").exists());
    }
}
