//! `demo`.

use crate::cli;
use crate::context::Context;
use crate::fault::Fault;
use crate::output;

pub(crate) fn run(args: &cli::Demo, _context: &Context) -> Result<(), Fault> {
    output::folder(&args.out)
}
