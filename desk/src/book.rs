//! `book`: the book itself.

use crate::cli;
use crate::context::Context;
use crate::fault::Fault;

pub(crate) fn run(_args: &cli::Book, _context: &Context) -> Result<(), Fault> {
    crate::keys::device_secret().map(|_| ())
}
