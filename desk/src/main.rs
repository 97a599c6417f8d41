//! `kerfbook`, the desk command. One command a file; errors are sentences, and the exit code is 2 for bad
//! input and 1 for everything else.

mod acted;
mod area;
mod book;
mod carbon;
mod cli;
mod compare;
mod context;
mod demo;
mod dose;
mod entries;
mod fault;
mod feeds;
mod forecast;
mod heat;
mod judge;
mod keys;
mod mix;
mod next_load;
mod output;
mod pile_volume;
mod place;
mod plan;
mod plot_table;
mod purpose;
mod readings;
mod report;
mod rings;
mod scenario;
mod stock;
mod today;
mod toml_file;
mod trial;

use std::ffi::OsString;
use std::process::ExitCode;

use crate::cli::{Cli, Command, Unparsed};
use crate::context::Context;
use crate::fault::Fault;

fn main() -> ExitCode {
    let arguments: Vec<OsString> = std::env::args_os().collect();
    let (language, json) = cli::manner(&arguments);
    let mut context = Context::new(language, json);
    let done = match cli::parse(&arguments, context.words()) {
        Ok(cli) => {
            context.use_units(cli.units);
            run(&cli, &context)
        }
        Err(Unparsed::Asked(text)) => context.print(text.trim_end()),
        Err(Unparsed::Wrong(fault)) => Err(fault),
    };
    done.map_or_else(|fault| context.report(&fault), |()| ExitCode::SUCCESS)
}

fn run(cli: &Cli, context: &Context) -> Result<(), Fault> {
    match &cli.command {
        Command::Demo(args) => demo::run(args, context),
        Command::Compare(args) => compare::run(args, context),
        Command::Forecast(args) => forecast::run(args, context),
        Command::Dose(args) => dose::run(args, context),
        Command::Area(args) => area::run(args, context),
        Command::Feeds(args) => feeds::run(args, context),
        Command::Purpose(args) => purpose::run(args, context),
        Command::Rings(args) => rings::run(args, context),
        Command::PileVolume(args) => pile_volume::run(args, context),
        Command::Mix(args) => mix::run(args, context),
        Command::Heat(args) => heat::run(args, context),
        Command::Carbon(args) => carbon::run(args, context),
        Command::Plan(args) => plan::run(args, context),
        Command::Trial(args) => trial::run(args, context),
        Command::Today(args) => today::run(args, context),
        Command::Place(args) => place::run(args, context),
        Command::Stock(args) => stock::run(args, context),
        Command::Judge(args) => judge::run(args, context),
        Command::Report(args) => report::made::run(args, context),
        Command::Book(args) => book::run(args, context),
    }
}
