//! Runs the real command in a folder of its own.
#![allow(dead_code, missing_docs, clippy::unwrap_used, reason = "shared by several test files")]

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

pub(crate) struct Desk {
    folder: tempfile::TempDir,
}

pub(crate) struct Done {
    pub(crate) code: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Desk {
    pub(crate) fn new() -> Self {
        Self { folder: tempfile::tempdir().unwrap() }
    }

    /// The folder in which commands run; empty at first.
    pub(crate) fn folder(&self) -> &Path {
        self.folder.path()
    }

    pub(crate) fn is_empty(&self) -> bool {
        std::fs::read_dir(self.folder()).unwrap().next().is_none()
    }

    /// The command, with nothing of this machine's settings around it.
    pub(crate) fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_kerfbook"));
        command
            .args(arguments)
            .current_dir(self.folder())
            .env_clear()
            .env("KERFBOOK_HOME", self.folder().join("home"))
            .stdin(Stdio::null());
        command
    }

    pub(crate) fn run(&self, arguments: &[&str]) -> Done {
        let output = self.command(arguments).output().unwrap();
        Done {
            code: output.status.code().unwrap_or(-1),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }
}

/// The folder of scenario files.
pub(crate) fn scenarios() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/scenarios")
}

/// The folder of a file, as it stands before the file's name in a message.
pub(crate) fn folder_of(path: &Path) -> String {
    format!("{}/", path.parent().unwrap().display())
}
