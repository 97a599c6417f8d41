//! `dose`.

use crate::cli;
use crate::context::Context;
use crate::fault::Fault;
use crate::scenario;

pub(crate) fn run(args: &cli::Dose, context: &Context) -> Result<(), Fault> {
    let described = scenario::read(&args.scenario)?;
    context.print(&format!("{described:#?}"))
}
