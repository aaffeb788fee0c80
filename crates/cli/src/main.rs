//! `underlath`: the command line over the same core as the tablet and the office.

#![allow(unreachable_pub, reason = "a program has no outside; pub says what a module offers its neighbors")]

use std::process::ExitCode;

use clap::{CommandFactory as _, FromArgMatches as _};
use words::Words;

mod args;
mod catalog;
mod commands;
mod fail;
mod help;
mod out;
mod reckon;
mod samples;
mod terminal;
mod world;

fn main() -> ExitCode {
    let typed: Vec<_> = std::env::args_os().collect();
    if typed.get(1).is_some_and(|word| word == apart::WORD) {
        // Nobody reads what it says; that it said nothing is enough.
        return if apart::serve().is_ok() { ExitCode::SUCCESS } else { ExitCode::FAILURE };
    }
    let words = Words::of(help::asked(&typed).unwrap_or_else(world::language));
    let matches = help::in_language(args::Args::command(), words).get_matches_from(typed);
    let args = args::Args::from_arg_matches(&matches).unwrap_or_else(|e| e.exit());
    let mut out = out::Out::new(args.json, words);
    match commands::run(args, &mut out) {
        Ok(()) => out.done(),
        Err(error) => out.fail(&error),
    }
}
