//! This computer's own secret: a key in the user's data folder that never enters a book.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

use crate::fault::{Fault, Message};

/// Bytes of a secret.
const LENGTH: usize = 32;
/// Where it is kept.
const FILE: &str = "device.key";

/// The device's secret; made on first use, readable by its owner alone.
pub(crate) fn device_secret() -> Result<[u8; LENGTH], Fault> {
    let folder = data_folder()?;
    secret_in(&folder)
}

/// The device's secret, where it was made before.
pub(crate) fn existing_secret() -> Result<Option<[u8; LENGTH]>, Fault> {
    let path = data_folder()?.join(FILE);
    read(&path).map_err(|error| cannot("desk-cannot-read-key", &path, &error))
}

fn secret_in(folder: &Path) -> Result<[u8; LENGTH], Fault> {
    let path = folder.join(FILE);
    match read(&path) {
        Ok(Some(secret)) => return Ok(secret),
        Ok(None) => {}
        Err(error) => return Err(cannot("desk-cannot-read-key", &path, &error)),
    }
    crate::output::folder(folder)?;
    let mut secret = [0; LENGTH];
    getrandom::fill(&mut secret).map_err(|error| cannot("desk-no-randomness", &path, &error))?;
    let made = create(&path, &secret);
    // Another process may have made it in the meantime; then that one counts, for both.
    match read(&path) {
        Ok(Some(kept)) => Ok(kept),
        Ok(None) => Err(Fault::other(
            Message::new("desk-cannot-write")
                .text("file", path.display())
                .text("why", made.err().map_or_else(String::new, |error| error.to_string())),
        )),
        Err(error) => Err(cannot("desk-cannot-read-key", &path, &error)),
    }
}

fn read(path: &Path) -> std::io::Result<Option<[u8; LENGTH]>> {
    match fs::read(path) {
        Ok(bytes) => bytes
            .try_into()
            .map(Some)
            .map_err(|_| std::io::Error::new(std::io::ErrorKind::InvalidData, "32 bytes expected")),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(error),
    }
}

/// Writes the secret beside its place, then links it there: whole or not at all, and never over another.
fn create(path: &Path, secret: &[u8]) -> std::io::Result<()> {
    let unfinished = path.with_extension(format!("{}.unfinished", std::process::id()));
    let mut options = fs::OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let written = options
        .open(&unfinished)
        .and_then(|mut file| file.write_all(secret).and_then(|()| file.sync_all()))
        .and_then(|()| fs::hard_link(&unfinished, path));
    let _ = fs::remove_file(&unfinished);
    written
}

/// `KERFBOOK_HOME`, else `kerfbook` in the user's data folder.
fn data_folder() -> Result<PathBuf, Fault> {
    let folder = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty()).map(PathBuf::from);
    folder("KERFBOOK_HOME")
        .or_else(|| folder("XDG_DATA_HOME").map(|data| data.join("kerfbook")))
        .or_else(|| folder("HOME").map(|home| home.join(".local/share/kerfbook")))
        .ok_or_else(|| Fault::other(Message::new("desk-no-home")))
}

fn cannot(id: &'static str, path: &Path, error: &dyn std::fmt::Display) -> Fault {
    Fault::other(Message::new(id).text("file", path.display()).text("why", error))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

    use super::*;

    #[test]
    fn a_secret_is_made_once_and_only_its_owner_may_read_it() {
        let folder = tempfile::tempdir().unwrap();
        let home = folder.path().join("new");
        let first = secret_in(&home).unwrap();
        assert_eq!(secret_in(&home).unwrap(), first);
        assert_ne!(first, [0; LENGTH]);
        assert_eq!(fs::read_dir(&home).unwrap().count(), 1);
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            let mode = fs::metadata(home.join(FILE)).unwrap().permissions().mode();
            assert_eq!(mode & 0o777, 0o600);
        }
    }

    #[test]
    fn a_damaged_key_is_told_and_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join(FILE);
        fs::write(&path, b"short").unwrap();
        assert!(secret_in(folder.path()).is_err());
        assert_eq!(fs::read(&path).unwrap(), b"short");
    }
}
