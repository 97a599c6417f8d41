//! Files are written whole or not at all.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

use crate::fault::{Fault, Message};

/// Writes a file beside its place and moves it there once it is on the disk.
pub(crate) fn write(path: &Path, bytes: &[u8]) -> Result<(), Fault> {
    let unfinished = unfinished(path);
    let written = fs::File::create(&unfinished)
        .and_then(|mut file| file.write_all(bytes).and_then(|()| file.sync_all()))
        .and_then(|()| fs::rename(&unfinished, path));
    written.map_err(|error| {
        // The half-written neighbour goes; that it may be gone already is no news.
        let _ = fs::remove_file(&unfinished);
        cannot("desk-cannot-write", path, &error)
    })
}

/// Makes a folder and those above it.
pub(crate) fn folder(path: &Path) -> Result<(), Fault> {
    fs::create_dir_all(path).map_err(|error| cannot("desk-cannot-make-folder", path, &error))
}

fn cannot(id: &'static str, path: &Path, error: &std::io::Error) -> Fault {
    Fault::other(Message::new(id).text("file", path.display()).text("why", error))
}

fn unfinished(path: &Path) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_os_string();
    name.push(format!(".{}.unfinished", std::process::id()));
    path.with_file_name(name)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

    use super::*;

    #[test]
    fn a_file_replaces_the_one_before_and_leaves_nothing_beside_it() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("report.html");
        write(&path, b"one").unwrap();
        write(&path, b"two").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"two");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn a_failed_write_leaves_the_file_before_as_it_was() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("taken");
        fs::create_dir(&path).unwrap();
        fs::write(path.join("inside"), b"kept").unwrap();
        assert!(write(&path, b"new").is_err());
        assert_eq!(fs::read(path.join("inside")).unwrap(), b"kept");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }
}
