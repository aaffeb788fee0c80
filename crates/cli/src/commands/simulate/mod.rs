//! `underlath simulate`: invented houses as lines of JSON, as a device that can be opened, or in numbers.

use std::fs;
use std::path::Path;

use actions::{CatalogFiles, Error, Kind};
use imagine::{Habits, ImagineError, SimulatedHouse, Truth, Wrong, WrongError, houses};
use survey::catalog::Catalog;

use super::Room;
use crate::args::Simulate;
use crate::fail;
use crate::out::Out;

mod device;
mod pictures;
mod tell;

/// Marks the folder as a simulation's, so that it never clears one it did not make.
const MARK: &str = "made-by-underlath-simulate.txt";

pub fn run(args: &Simulate, room: &Room<'_>, out: &mut Out) -> Result<(), Error> {
    let walk = room.catalog()?;
    let (truth, wrong) = truth(args, &walk)?;
    let list = houses(&walk, &truth, args.seed).map_err(refused)?;
    let list = list.zip(0..args.houses).map(|(house, _)| house.map_err(refused));
    match &args.into {
        None if out.json() => {
            for house in list {
                out.line(house?.to_line());
            }
        }
        None => {
            let list: Vec<SimulatedHouse> = list.collect::<Result<_, _>>()?;
            tell::numbers(&list, args.seed, &truth.catalog, out);
        }
        Some(into) => {
            super::fresh::folder(into, MARK, "A simulation")?;
            write(into, "truth.toml", wrong.as_ref().map(Wrong::to_toml))?;
            let list: Vec<SimulatedHouse> = list.collect::<Result<_, _>>()?;
            let lines: String = list.iter().map(|house| house.to_line() + "\n").collect();
            write(into, "houses.jsonl", Some(lines))?;
            let made = device::write(&list, walk, into, (args.sealed, args.photographs), out)?;
            if out.json() {
                out.value(&made);
            } else {
                tell::numbers(&list, args.seed, &truth.catalog, out);
                tell::made(&made, wrong.is_some(), into, out);
            }
        }
    }
    Ok(())
}

fn write(into: &Path, name: &str, text: Option<String>) -> Result<(), Error> {
    let path = into.join(name);
    text.map_or(Ok(()), |text| fs::write(&path, text).map_err(|e| fail::file(&path, &e)))
}

/// What is true of the houses, and by which factors it differs from a catalog.
fn truth(args: &Simulate, walk: &Catalog) -> Result<(Truth, Option<Wrong>), Error> {
    let mut factors = Wrong::default();
    let mut true_catalog = walk.clone();
    if let Some(path) = &args.truth {
        if path.is_file() {
            factors = Wrong::read(&read(path)?).map_err(wrong)?;
        } else {
            true_catalog = CatalogFiles::read(Some(path), None)?.catalog()?;
        }
    }
    if let Some(most) = args.wrong_by {
        factors = factors.and(&Wrong::by(&true_catalog, most, args.seed).map_err(wrong)?);
    }
    let differs = factors != Wrong::default();
    if differs {
        true_catalog = factors.applied(&true_catalog).map_err(wrong)?;
    }
    let mut truth = Truth::new(true_catalog).map_err(refused)?;
    if let Some(path) = &args.habits {
        truth.habits = Habits::read(&read(path)?).map_err(|e| refused(e.into()))?;
    }
    Ok((truth, differs.then_some(factors)))
}

fn read(path: &Path) -> Result<String, Error> {
    fs::read_to_string(path).map_err(|e| fail::file(path, &e))
}

fn wrong(error: WrongError) -> Error {
    Error::new(Kind::Input, error.to_string())
        .hint("a file of factors has the tables [odds] and [ratio.CONDITION], see docs/simulate.md")
}

fn refused(error: ImagineError) -> Error {
    let hint = match error {
        ImagineError::Habits(_) => "the habits are explained in docs/simulate.md",
        ImagineError::Network(_) => "mend the catalog that is taken as true",
        ImagineError::OtherWalk { .. } => {
            "change odds, clues and costs of the truth, and leave its walk as it is"
        }
    };
    Error::new(Kind::Input, error.to_string()).hint(hint)
}
