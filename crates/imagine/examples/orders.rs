//! Prints how orders of asking compare: `cargo run -p imagine --example orders -- HOUSES SEED JOBS [WRONG-BY]`.
//! `docs/orders.md` was made with it.

#![allow(clippy::print_stdout, clippy::print_stderr, reason = "a program that prints")]

use std::process::ExitCode;

use imagine::orders::{HouseRuns, Table, compare};
use imagine::{ImagineError, SimulatedHouse, Truth, Wrong, houses};

/// The item that says the year.
const YEAR: &str = "year-built";

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
    let part = |job: usize| -> Result<Vec<Result<HouseRuns, ImagineError>>, ImagineError> {
        let mine = houses(&catalog, &truth, seed)?.take(many).skip(job).step_by(jobs);
        // Without the year the era ties the whole network: such a house takes minutes, and is counted apart.
        let dated = |house: &SimulatedHouse| house.answer(YEAR).is_statement();
        mine.filter(|house| house.as_ref().map_or(true, dated))
            .map(|house| Ok(compare(&catalog, &tables, &truth, &house?)))
            .collect()
    };
    let parts: Vec<_> = std::thread::scope(|s| {
        let running: Vec<_> = (0..jobs).map(|job| s.spawn(move || part(job))).collect();
        running.into_iter().map(|one| one.join()).collect()
    });
    let (mut runs, mut left_out) = (Vec::new(), 0usize);
    for part in parts {
        for house in part.map_err(|_| "a worker stopped")?? {
            match house {
                Ok(house) => runs.push(house),
                Err(_) => left_out += 1,
            }
        }
    }
    let undated = many - runs.len() - left_out;
    let head = format!(
        "{} houses of seed {seed}, truth wrong by up to {wrong}. Left out: {undated} without a year, {left_out} whose \
         answers cannot all be true in the catalog.\n\n",
        runs.len()
    );
    Ok(head + &Table::of(&runs).markdown())
}
