//! Prints how orders of asking compare: `cargo run --release -p imagine --example orders -- HOUSES SEED JOBS [WRONG-BY]`.
//! `docs/orders.md` was made with it. Every hundred houses the table so far goes to the error output, so that a run of
//! hours that is broken off has not been for nothing.

#![allow(clippy::print_stdout, clippy::print_stderr, reason = "a program that prints")]

use std::process::ExitCode;
use std::sync::mpsc;

use imagine::orders::{HouseRuns, Table, compare};
use imagine::{ImagineError, Truth, Wrong, houses};

/// The item that says the year.
const YEAR: &str = "year-built";
/// Houses between two tables so far.
const SO_FAR: usize = 100;

fn main() -> ExitCode {
    match run() {
        Ok(text) => {
            print!("{text}");
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("{error}");
            ExitCode::from(2)
        }
    }
}

/// One house: its number, whether its year is known, and what came of asking it. None where its answers cannot all be
/// true in the catalog.
struct Asked {
    number: u64,
    dated: bool,
    runs: Option<HouseRuns>,
}

fn run() -> Result<String, Box<dyn std::error::Error>> {
    let mut given = std::env::args().skip(1);
    let mut number = |or: &str| given.next().unwrap_or_else(|| or.to_owned());
    let (many, seed): (usize, u64) = (number("20").parse()?, number("1").parse()?);
    let (jobs, wrong): (usize, f64) = (number("1").parse()?, number("1").parse()?);
    let catalog = survey::catalog::builtin()?;
    let mut truth = Truth::new(catalog.clone())?;
    if wrong > 1.0 {
        truth = Truth::new(Wrong::by(&catalog, wrong, seed)?.applied(&catalog)?)?;
    }
    let tables = assessment::ClueTables::fit(&catalog);
    let part = |job: usize, done: &mpsc::Sender<Result<Asked, ImagineError>>| -> Result<(), ImagineError> {
        for house in houses(&catalog, &truth, seed)?.take(many).skip(job).step_by(jobs) {
            let asked = house.map(|house| Asked {
                number: house.number,
                dated: house.answer(YEAR).is_statement(),
                runs: compare(&catalog, &tables, &truth, &house).ok(),
            });
            if done.send(asked).is_err() {
                break; // nobody listens any more
            }
        }
        Ok(())
    };
    let told = |all: &mut Vec<Asked>| -> String {
        all.sort_by_key(|asked| asked.number);
        let counted = |asked: &&Asked| asked.runs.is_some();
        let undated = all.iter().filter(counted).filter(|asked| !asked.dated).count();
        let runs: Vec<HouseRuns> = all.iter().filter_map(|asked| asked.runs.clone()).collect();
        let head = format!(
            "{} houses of seed {seed}, {undated} of them without a year, truth wrong by up to {wrong}. Left out: {} whose \
             answers cannot all be true in the catalog.\n\n",
            runs.len(),
            all.len() - runs.len()
        );
        head + &Table::of(&runs).markdown()
    };
    std::thread::scope(|s| {
        let (done, asked) = mpsc::channel();
        let part = &part;
        let running: Vec<_> = (0..jobs)
            .map(|job| {
                let done = done.clone();
                s.spawn(move || part(job, &done))
            })
            .collect();
        drop(done);
        let mut all: Vec<Asked> = Vec::new();
        for one in asked {
            all.push(one?);
            if all.len().is_multiple_of(SO_FAR) {
                eprintln!("{}", told(&mut all));
            }
        }
        for one in running {
            one.join().map_err(|_| "a worker stopped")??;
        }
        Ok(told(&mut all))
    })
}
