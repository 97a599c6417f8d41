//! Handing the book over: one file with all that is in it.

use std::path::Path;

use crate::error::CoreError;
use crate::field_book::{FieldBook, of_book};

#[uniffi::export]
impl FieldBook {
    /// Writes the whole book into a new file, names and notes too; it verifies on any computer and can be read there, not
    /// written in. A file that was there is replaced.
    ///
    /// # Errors
    /// No room, or a folder that cannot be written.
    pub fn hand_over(&self, path: String) -> Result<(), CoreError> {
        let speech = self.speech();
        let path = Path::new(&path);
        match std::fs::remove_file(path) {
            Err(error) if error.kind() != std::io::ErrorKind::NotFound => {
                return Err(CoreError::Platform { reason: error.to_string() });
            }
            _ => {}
        }
        of_book(self.book().copy_to(path), &speech)
    }
}
