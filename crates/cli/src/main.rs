//! `underlath`: the command line over the same core as the tablet and the office.

#![allow(unreachable_pub, reason = "a program has no outside; pub says what a module offers its neighbors")]

use std::process::ExitCode;

use clap::Parser as _;

mod args;
mod catalog;
mod commands;
mod fail;
mod out;
mod reckon;
mod samples;
mod world;

fn main() -> ExitCode {
    let args = args::Args::parse();
    let mut out = out::Out::new(args.json);
    match commands::run(args, &mut out) {
        Ok(()) => out.done(),
        Err(error) => out.fail(&error),
    }
}
