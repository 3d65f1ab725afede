//! Whether a file lies on a drive of this machine: over a network the engine's locks and its shared memory do not hold.

use std::path::Path;

/// Kinds of file system that lie on another machine (as Linux names them in its list of mounts).
const REMOTE: [&str; 18] = [
    "9p",
    "afs",
    "beegfs",
    "ceph",
    "cifs",
    "coda",
    "fuse.curlftpfs",
    "fuse.glusterfs",
    "fuse.rclone",
    "fuse.s3fs",
    "fuse.sshfs",
    "glusterfs",
    "lustre",
    "nfs",
    "nfs4",
    "prl_fs",
    "smb3",
    "vboxsf",
];

/// The kind of network drive that a file would lie on, in words; none for a drive of this machine, or where it is not known.
pub(super) fn remote(file: &Path) -> Option<String> {
    if is_share(&file.to_string_lossy()) {
        return Some("a network share".to_string());
    }
    let folder = match file.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let folder = folder.canonicalize().ok()?;
    if is_share(&folder.to_string_lossy()) {
        return Some("a network share".to_string());
    }
    // Only Linux has this list; elsewhere the kind is not known.
    let mounts = std::fs::read_to_string("/proc/self/mountinfo").ok()?;
    remote_mount(&folder, &mounts).map(|kind| format!("a network drive ({kind})"))
}

/// Whether a path is a share of another machine, as Windows writes it.
fn is_share(path: &str) -> bool {
    let local = path.starts_with(r"\\?\") || path.starts_with(r"\\.\");
    path.starts_with(r"\\?\UNC\") || path.starts_with(r"\\") && !local
}

/// The kind of the drive that a folder lies on, where it is one of [`REMOTE`]. `mounts` is Linux's list: number, parent,
/// device, root, place, options, "-", kind, source. The deepest place counts, of one place the last.
fn remote_mount(folder: &Path, mounts: &str) -> Option<String> {
    let mut deepest: (usize, &str, String) = (0, "", String::new());
    for line in mounts.lines() {
        let Some((mount, source)) = line.split_once(" - ") else {
            continue;
        };
        let (Some(place), Some(kind)) = (mount.split(' ').nth(4), source.split(' ').next()) else {
            continue;
        };
        let place = unescaped(place);
        let depth = Path::new(&place).components().count();
        if folder.starts_with(&place) && depth >= deepest.0 {
            deepest = (depth, kind, place);
        }
    }
    let (_, kind, place) = deepest;
    // A sandbox hands its own root through in this way: that is this machine's.
    let own_root = kind == "9p" && place == "/";
    (REMOTE.contains(&kind) && !own_root).then(|| kind.to_string())
}

/// Blanks, tabs, line ends and backslashes stand in the list as octal figures.
fn unescaped(place: &str) -> String {
    [
        ("\\040", " "),
        ("\\011", "\t"),
        ("\\012", "\n"),
        ("\\134", "\\"),
    ]
    .iter()
    .fold(place.to_string(), |text, (octal, sign)| {
        text.replace(octal, sign)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const MOUNTS: &str = "\
22 1 8:1 / / rw,relatime shared:1 - ext4 a-disk rw
30 22 0:40 / /srv/share rw - nfs4 stores:/export rw,vers=4.2
31 30 0:41 / /srv/share/local rw - xfs b-disk rw
32 22 0:42 / /mnt/yard\\040docs rw - cifs //stores/docs rw
33 22 0:43 / /mnt/over rw - ext4 c-disk rw
34 33 0:44 / /mnt/over rw - fuse.sshfs dock@stores: rw
35 22 0:45 / /mnt/c rw - 9p drive rw
36 22 0:46 / /mnt/stick rw - fuseblk d-disk rw
";

    #[test]
    fn the_deepest_mount_decides() {
        for (folder, kind) in [
            ("/var/stores", None),
            ("/srv/share", Some("nfs4")),
            ("/srv/share/2026", Some("nfs4")),
            ("/srv/shared", None),
            ("/srv/share/local/a", None),
            ("/mnt/yard docs/ledger", Some("cifs")),
            ("/mnt/over", Some("fuse.sshfs")),
            ("/mnt/c/stores", Some("9p")),
            ("/mnt/stick", None),
        ] {
            let found = remote_mount(Path::new(folder), MOUNTS);
            assert_eq!(found.as_deref(), kind, "{folder}");
        }
    }

    #[test]
    fn a_root_that_is_handed_through_is_no_network() {
        let mounts = "1 0 0:1 / / rw - 9p none rw\n";
        assert_eq!(remote_mount(Path::new("/srv"), mounts), None);
    }

    #[test]
    fn a_share_is_known_by_its_path() {
        for (path, share) in [
            (r"\\stores\docs\ledger.dockheft", true),
            (r"\\?\UNC\stores\docs\ledger.dockheft", true),
            (r"\\?\C:\stores\ledger.dockheft", false),
            (r"C:\stores\ledger.dockheft", false),
            ("/srv/ledger.dockheft", false),
        ] {
            assert_eq!(is_share(path), share, "{path}");
        }
    }
}
