//! Trap arm: the drain from the trap to its vent. Longest length by table, shortest two diameters, fall no more
//! than one diameter, so that the vent opening does not lie below the weir.
//!
//! Sources stand in the plumbing books (`catalog/codes`): IRC Table P3105.1 and IPC Table 909.1; UPC Table 1002.2;
//! IRC P3105.2 and P3105.3. The plumber decides where the vent really is: it hides in the wall.

use alloc::{format, vec, vec::Vec};

use survey::catalog::{Book, Catalog, Family, Shelf};
use survey::{Phrase, say};

use crate::calculation::Calculation;
use crate::cite::{across, row, table, value};
use crate::error::{TradeError, finite};
use crate::given::{Field, Given, Kind, show_inches};
use crate::measure::InchesPerFoot;
use crate::number::{SIZES, in_100, show_number, size_inches, size_name};
use crate::picture::{FallSection, Picture};
use crate::sheet::{Change, Limit, Sheet, Standing};
use crate::tolerance::{Budget, Reading};

/// One reason why an arm is outside the limits.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Fault {
    /// Longer than the table allows.
    TooLong,
    /// Shorter than two diameters.
    TooShort,
    /// Falls more than one diameter.
    FallsTooFar,
    /// Level or falling back toward the trap.
    NoFall,
    /// Falls less in a foot than a drain of its size must.
    TooGentle,
}

/// A trap arm against its limits.
#[derive(Clone, PartialEq, Debug)]
pub struct TrapArm {
    /// Total fall, inches.
    pub fall: f64,
    /// Longest by table, inches.
    pub longest: f64,
    /// Shortest, inches.
    pub shortest: f64,
    /// What is outside; empty when within the limits.
    pub faults: Vec<Fault>,
}

/// Fall over a run: slope in inches per foot, run in inches.
pub fn fall(slope_per_foot: f64, run: f64) -> f64 {
    slope_per_foot * run / 12.0
}

/// Longest trap arm in inches for a nominal diameter in inches, and the limit it stands in.
///
/// # Errors
/// The book has no table, or the table no such size.
pub fn longest(book: &Book, diameter: f64) -> Result<(f64, Limit), TradeError> {
    let diameter = finite(Phrase("trade-trap-arm-diameter"), diameter)?;
    let name = size_name(diameter).map_or_else(|| format!("{diameter}"), Into::into);
    row(book, "trap-arm-longest", &name)
}

/// Least slope of a drain of a nominal diameter in inches, in inches per foot.
///
/// # Errors
/// As [`longest`].
pub fn least_slope(book: &Book, diameter: f64) -> Result<f64, TradeError> {
    let name = size_name(diameter).map_or_else(|| format!("{diameter}"), Into::into);
    Ok(row(book, "least-slope", &name)?.0)
}

/// Checks one arm; lengths in inches, slope in inches per foot.
///
/// # Errors
/// As [`longest`], or a number that is not finite.
pub fn check(book: &Book, diameter: f64, length: f64, slope_per_foot: f64) -> Result<TrapArm, TradeError> {
    let (longest, _) = longest(book, diameter)?;
    let length = finite(Phrase("trade-trap-arm-length"), length)?;
    let fall = fall(finite(Phrase("trade-slope-3"), slope_per_foot)?, length);
    let (diameters, _) = value(book, "trap-arm-shortest")?;
    let shortest = diameters * diameter;
    let hair = 1e-9; // inches; keeps an arm exactly at a limit inside it whatever the last bit of the product
    let faults = [
        (length > longest + hair, Fault::TooLong),
        (length < shortest - hair, Fault::TooShort),
        (fall > diameter + hair, Fault::FallsTooFar),
        (slope_per_foot <= 0.0, Fault::NoFall),
        (slope_per_foot > 0.0 && slope_per_foot < least_slope(book, diameter)? - hair, Fault::TooGentle),
    ];
    let faults = faults.into_iter().filter_map(|(is, fault)| is.then_some(fault)).collect();
    Ok(TrapArm { fall, longest, shortest, faults })
}

/// A trap arm as measured or planned.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ArmPlan {
    length: Reading,
    size: &'static str,
    diameter: f64,
    slope: InchesPerFoot,
}

/// σ of a trap arm paced off along a cabinet, inches: common practice, no source.
const LENGTH_SIGMA: f64 = 1.0;
/// Longest arm taken, inches: 25 ft, beyond every table.
const LONGEST_TAKEN: f64 = 300.0;

impl ArmPlan {
    /// A plan.
    ///
    /// # Errors
    /// A length outside 0 to 25 ft, or a size that is no nominal one.
    pub fn new(length: Reading, diameter: f64, slope: InchesPerFoot) -> Result<Self, TradeError> {
        let inches = length.inches();
        if !(0.0..=LONGEST_TAKEN).contains(&inches) {
            let (what, unit) = (Phrase("trade-trap-arm-length"), "in");
            return Err(TradeError::OutOfRange { what, value: inches, low: 0.0, high: LONGEST_TAKEN, unit });
        }
        let Some(size) = size_name(diameter) else {
            let known: Vec<&str> = SIZES.iter().map(|(n, _)| *n).collect();
            let value = format!("{diameter}");
            return Err(TradeError::NoWord {
                what: Phrase("trade-pipe-size"),
                value,
                known: known.join(", "),
            });
        };
        Ok(Self { length, size, diameter, slope })
    }
}

/// What stands beside every answer.
pub const CAUTION: Phrase = Phrase("trade-screening-answer-pricing-not-approval");

/// Holds an arm against the firm's book, or against every plumbing book.
///
/// # Errors
/// A book without the tables, or a size they do not know.
pub fn judge(plan: &ArmPlan, shelf: &Shelf) -> Result<Sheet, TradeError> {
    across(shelf, Family::Plumbing, CAUTION, |book| under(plan, book))
}

fn under(plan: &ArmPlan, book: &Book) -> Result<Sheet, TradeError> {
    let length = plan.length.inches();
    let arm = check(book, plan.diameter, length, plan.slope.get())?;
    let spread = Budget::new().with(Phrase("trade-arm-length"), 1.0, plan.length.sigma(LENGTH_SIGMA));
    // Length and fall come from one reading: the tighter of the two limits on the length governs.
    let by_fall =
        if plan.slope.get() > 0.0 { plan.diameter * 12.0 / plan.slope.get() } else { f64::INFINITY };
    let most = libm::fmin(arm.longest, by_fall);
    let no_fall = arm.faults.contains(&Fault::NoFall);
    let gentle = arm.faults.contains(&Fault::TooGentle);
    let beyond = if no_fall || gentle { 1.0 } else { spread.chance_over(length, most) };
    let short = spread.chance_under(length, arm.shortest);
    let chance = libm::fmin(beyond + short, 1.0); // the two cannot both be true
    let standing = Standing::of_chance(chance);
    let how = standing.lies();
    let which = if by_fall < arm.longest {
        Phrase("trade-fall-one-diameter-allows")
    } else {
        Phrase("trade-table-allows")
    };
    let sentence = if no_fall {
        say!("trade-arm-does-not-fall")
    } else if gentle {
        say!(
            "trade-fall-foot-lies-beyond",
            slope = show_inches(plan.slope.get()),
            diameter = show_inches(least_slope(book, plan.diameter)?),
            size = plan.size
        )
    } else if short > beyond && standing != Standing::Within {
        say!(
            "trade-arm-against-two-diameters",
            length = show_inches(length),
            size = plan.size,
            shortest = show_inches(arm.shortest),
            how = how,
            short = in_100(short)
        )
    } else {
        say!(
            "trade-arm-chance-lies-beyond",
            length = show_inches(length),
            size = plan.size,
            how = how,
            most = show_inches(most),
            which = which,
            chance = in_100(chance)
        )
    };
    let mut sheet = Sheet::new(standing, sentence, CAUTION);
    sheet.chance_beyond = Some(chance);
    sheet.sigma = Some(say!("trade-in", sigma = format!("{:.3}", spread.sigma())));
    let slope = plan.slope.get();
    sheet.line(
        Phrase("trade-fall"),
        say!(
            "trade-ft-12",
            slope = show_inches(slope),
            wasterun = show_inches(length),
            waste = show_inches(arm.fall)
        ),
    );
    sheet.line(Phrase("trade-longest-table"), show_inches(arm.longest));
    if by_fall.is_finite() {
        sheet.line(
            Phrase("trade-longest-fall"),
            say!(
                "trade-one-diameter-12",
                diameter = show_inches(plan.diameter),
                slope = show_inches(slope),
                byfall = show_inches(by_fall)
            ),
        );
    }
    let diameters = show_number(arm.shortest / plan.diameter);
    sheet.line(
        Phrase("trade-shortest"),
        format!("{diameters} × {} = {}", show_inches(plan.diameter), show_inches(arm.shortest)),
    );
    sheet.line(
        Phrase("trade-room-left"),
        format!("{} − {} = {}", show_inches(most), show_inches(length), show_inches(most - length)),
    );
    sheet.limits = vec![
        longest(book, plan.diameter)?.1,
        value(book, "trap-arm-shortest")?.1,
        value(book, "trap-arm-fall")?.1,
        row(book, "least-slope", plan.size)?.1,
    ];
    sheet.changes = changes(plan, book, &arm, most)?;
    sheet.picture = Some(Picture::Fall(FallSection {
        from: say!("trade-end-trap"),
        to: say!("trade-end-vent"),
        length,
        fall: arm.fall,
        diameter: plan.diameter,
        limits: vec![(say!("trade-longest-table-2"), arm.longest)],
    }));
    Ok(sheet)
}

/// Single changes for an arm outside its limits; each is the plumber's to plan.
fn changes(plan: &ArmPlan, book: &Book, arm: &TrapArm, most: f64) -> Result<Vec<Change>, TradeError> {
    let (length, slope) = (plan.length.inches(), plan.slope.get());
    let mut out = Vec::new();
    if arm.faults.contains(&Fault::NoFall) || arm.faults.contains(&Fault::TooGentle) {
        let least = least_slope(book, plan.diameter)?;
        let enough = check(book, plan.diameter, length, least)?.faults.is_empty();
        out.push(Change::new(say!("trade-let-fall-foot", least = show_inches(least)), enough));
    } else if length > most {
        let text = say!("trade-vent-no-farther-than", most = show_inches(most));
        out.push(Change::new(text, true));
        // The next larger size of the table only: a trap may not be more than one size under its arm.
        let mut larger = table(book, "trap-arm-longest")?.rows.iter();
        let next = larger.find_map(|(name, _)| {
            size_inches(name).filter(|inches| *inches > plan.diameter).map(|inches| (name, inches))
        });
        if let Some((name, diameter)) = next
            && check(book, diameter, length, slope)?.faults.is_empty()
        {
            let by_fall = if slope > 0.0 { diameter * 12.0 / slope } else { f64::INFINITY };
            let most = libm::fmin(longest(book, diameter)?.0, by_fall);
            let chance = Budget::new()
                .with(Phrase("trade-arm-length"), 1.0, plan.length.sigma(LENGTH_SIGMA))
                .chance_over(length, most);
            let text = say!("trade-arm-trap-may-have", name = name);
            out.push(Change::new(text, Standing::of_chance(chance) == Standing::Within));
        }
    } else if length < arm.shortest {
        let text = say!("trade-vent-least-trap", shortest = show_inches(arm.shortest));
        out.push(Change::new(text, true));
    }
    Ok(out)
}

const FIELDS: &[Field] = &[
    Field::must(
        "length",
        Phrase("trade-how-long-arm-trap"),
        Kind::Length { min: 0.0, max: LONGEST_TAKEN, feet: false },
    ),
    Field::or("size", Phrase("trade-what-size-arm"), Kind::Word(&["1-1/4", "1-1/2", "2", "3", "4"]), "1-1/2"),
    Field::or(
        "slope",
        Phrase("trade-how-much-does-fall"),
        Kind::Number { unit: "in/ft", min: 0.0, max: 12.0 },
        "0.25",
    ),
];

/// What this file answers.
pub const CALCULATIONS: &[Calculation] = &[CALCULATION];

const CALCULATION: Calculation = Calculation {
    word: "trap-arm",
    title: Phrase("trade-trap-arm"),
    about: Phrase("trade-whether-drain-trap-vent"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let (Some(length), Some(size), Some(slope)) =
        (given.length("length"), given.word("size"), given.number("slope"))
    else {
        let missing = given.missing(FIELDS);
        return Ok(Sheet::cannot_say(Phrase("trade-without-length-arm-nothing"), missing, CAUTION));
    };
    let diameter = size_inches(size).unwrap_or_default();
    let plan = ArmPlan::new(length, diameter, InchesPerFoot::new(slope)?)?;
    let mut sheet = judge(&plan, &catalog.shelf)?;
    sheet.assumed.extend(given.assumed().iter().cloned());
    Ok(sheet)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::English as _;
    use crate::testing::{catalog, run_words};

    fn book(id: &str) -> Book {
        catalog().shelf.book(id).cloned().unwrap()
    }

    #[test]
    fn the_tables_of_both_families_are_kept() {
        // IRC 2021 Table P3105.1, IPC Table 909.1: 5, 6, 8, 12, 16 ft;
        // California Plumbing Code 2013 (UPC 2012) Table 1002.2: 2 ft 6, 3 ft 6, 5, 6, 10 ft
        for (diameter, irc, upc) in
            [(1.25, 5.0, 2.5), (1.5, 6.0, 3.5), (2.0, 8.0, 5.0), (3.0, 12.0, 6.0), (4.0, 16.0, 10.0)]
        {
            assert_eq!(longest(&book("ipc-2021"), diameter).unwrap().0, irc * 12.0);
            assert_eq!(longest(&book("upc-2012"), diameter).unwrap().0, upc * 12.0);
        }
    }

    #[test]
    fn every_fault_is_named() {
        // IRC P3105.2 (fall), P3105.3 (two diameters), Table P3105.1 (length)
        let faults = |length, slope| check(&book("ipc-2021"), 1.5, length, slope).unwrap().faults;
        assert_eq!(faults(72.0, 0.25), []); // 72 in at 1/4 in per ft falls exactly one diameter
        assert_eq!(faults(73.0, 0.25), [Fault::TooLong, Fault::FallsTooFar]);
        assert_eq!(faults(2.5, 0.25), [Fault::TooShort]);
        assert_eq!(faults(60.0, 0.5), [Fault::FallsTooFar]);
        assert_eq!(faults(60.0, -0.25), [Fault::NoFall]);
        assert_eq!(faults(30.0, 0.125), [Fault::TooGentle]); // IPC 704.1: 1/4 in per ft up to 2-1/2 in
    }

    #[test]
    fn a_size_outside_the_table_says_which_sizes_there_are() {
        let error = longest(&book("upc-2012"), 2.5).unwrap_err().message().en();
        assert!(error.contains("2-1/2") && error.contains("1-1/4, 1-1/2, 2, 3, 4"), "{error}");
        assert!(check(&book("ipc-2021"), 1.5, f64::NAN, 0.25).is_err());
    }

    #[test]
    fn books_that_differ_answer_ask_locally_until_the_firm_chooses() {
        let open = run_words(&CALCULATION, &[("length", "60 ± 1")], &catalog());
        assert_eq!(open.standing, Standing::AskLocally);
        assert_eq!(open.chance_beyond, None);
        let upc = catalog().choosing(Family::Plumbing, "upc-2012");
        assert_eq!(run_words(&CALCULATION, &[("length", "60 ± 1")], &upc).standing, Standing::Beyond);
        let agree = run_words(&CALCULATION, &[("length", "24 ± 1")], &catalog());
        assert!(agree.sentence.starts_with("24\" of 1-1/2 arm, within the 42\""), "{}", agree.sentence);
        assert_eq!(agree.standing, Standing::Within);
        assert!(
            agree.notes.iter().any(|n| n.contains("IPC/IRC and UPC") && n.contains("shown is")),
            "{:?}",
            agree.notes
        );
        // The stricter is shown where it can be told.
        let strict = run_words(&CALCULATION, &[("length", "36 ± 5")], &catalog());
        assert!(strict.sentence.contains("42\"") && strict.notes.iter().any(|n| n.contains("shown is UPC")));
        // Both lie beyond, with other numbers: each is shown, and a change under one is not one under the other.
        let both = run_words(&CALCULATION, &[("length", "80 ± 1")], &catalog());
        assert_eq!((both.standing, both.chance_beyond), (Standing::Beyond, Some(1.0)));
        assert!(both.sentence.contains("72\"") && both.sentence.contains("42\""), "{}", both.sentence);
        assert!(
            both.changes.iter().any(|c| c.text.starts_with("UPC: ") && c.text.contains("42\"")),
            "{:?}",
            both.changes
        );
        // Near under both, by chances that differ: none is stated.
        let near = run_words(&CALCULATION, &[("length", "78 ± 30"), ("size", "2")], &catalog());
        assert_eq!((near.standing, near.chance_beyond), (Standing::Near, None));
    }

    #[test]
    fn an_arm_outside_its_limits_says_what_would_bring_it_inside() {
        // IRC P3105.3: two diameters; IRC 2021 Table P3105.1: 72 in for 1-1/2, 96 for 2
        let ipc = catalog().choosing(Family::Plumbing, "ipc-2021");
        let sheet = |answers: &[(&str, &str)]| run_words(&CALCULATION, answers, &ipc);
        let texts = |sheet: &Sheet| sheet.changes.iter().map(|c| c.text.read()).collect::<Vec<_>>().join(" ");
        let short = sheet(&[("length", "2 ± 1/4")]);
        assert_eq!(short.standing, Standing::Beyond);
        assert!(
            short.sentence.contains("too short") && texts(&short).contains("at least 3\""),
            "{}",
            short.sentence
        );
        let long = sheet(&[("length", "80 ± 1")]);
        assert!(
            texts(&long).contains("no farther than 72\"") && texts(&long).contains("A 2 arm"),
            "{}",
            texts(&long)
        );
        let level = sheet(&[("length", "30"), ("slope", "0")]);
        assert_eq!((level.standing, level.changes[0].enough), (Standing::Beyond, true));
        assert!(sheet(&[("length", "30")]).changes.is_empty());
    }

    #[test]
    fn a_larger_arm_is_offered_one_size_up_and_only_as_far_as_the_tolerance_carries_it() {
        // California Plumbing Code 2013 (UPC 2012) Table 1002.2: 42 in for 1-1/2, 60 for 2, 72 for 3; 1003.3: one size.
        let upc = catalog().choosing(Family::Plumbing, "upc-2012");
        let offers = |length| {
            let sheet = run_words(&CALCULATION, &[("length", length)], &upc);
            let arms: Vec<_> = sheet.changes.into_iter().filter(|c| c.text.contains(" arm;")).collect();
            arms.into_iter().map(|c| (c.text.contains("A 2 arm"), c.enough)).collect::<Vec<_>>()
        };
        assert_eq!(offers("50 ± 1"), [(true, true)]);
        assert_eq!(offers("60 ± 1"), [(true, false)]);
        assert_eq!(offers("72 ± 1"), []);
    }

    #[test]
    fn near_the_limit_the_tolerance_decides() {
        let ipc = catalog().choosing(Family::Plumbing, "ipc-2021");
        let sheet = run_words(&CALCULATION, &[("length", "72 ± 2")], &ipc);
        assert_eq!(sheet.standing, Standing::Near);
        assert!((sheet.chance_beyond.unwrap() - 0.5).abs() < 1e-12);
    }
}
