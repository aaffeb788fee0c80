//! The answer as a sheet: how the stub lies by the chance that it must change, and what would make it fit.

use core::cell::RefCell;

use alloc::{format, vec, vec::Vec};

use survey::catalog::{Family, Shelf};
use survey::{Phrase, Said, say};

use super::also;
use super::answer::{DrainAnswer, DrainFit};
use super::chain::{Connection, Verdict};
use super::defaults::DrainDefaults;
use super::fit::fit_under;
use super::plan::{CAUTION, Datum, SinkPlan};
use super::remedies::usual;
use crate::cite::{across, and};
use crate::drainage::enough::{SIXTEENTH, least};
use crate::error::TradeError;
use crate::given::show_inches as show;
use crate::number::in_100;
use crate::picture::{Picture, SinkElevation};
use crate::sheet::{Change, Sheet, Standing};
use crate::tolerance::Budget;

/// Most height wanted beside the changes, inches.
const MOST_WANTED: f64 = 60.0;

/// Fits a planned sink under the firm's plumbing book, or under every one while none is chosen. Where nobody said from
/// where the stub was read, both ways are tried, and an answer is given only if they agree.
///
/// # Errors
/// A plumbing book without the limits of a drain.
pub fn judge(plan: &SinkPlan, defaults: &DrainDefaults, shelf: &Shelf) -> Result<Sheet, TradeError> {
    let (of_height, sheet) = under_books(plan, defaults, shelf)?;
    if plan.stub_datum.is_some() || sheet.standing == Standing::CannotSay {
        return Ok(sheet);
    }
    let from_cabinet = SinkPlan { stub_datum: Some(Datum::CabinetFloor), ..plan.clone() };
    let (other_of_height, other) = under_books(&from_cabinet, defaults, shelf)?;
    if other_of_height == of_height {
        return Ok(sheet);
    }
    let sentence = say!(
        "trade-where-stub-reading-starts-decides",
        sentence = sheet.sentence,
        sentence2 = other.sentence
    );
    let missing = vec![say!("trade-where-stub-reading-starts")];
    let open = Sheet::cannot_say(sentence, missing, CAUTION);
    Ok(Sheet { lines: sheet.lines, limits: sheet.limits, assumed: sheet.assumed, notes: sheet.notes, ..open })
}

/// How the stub stands by its height, and the sheet.
fn under_books(
    plan: &SinkPlan,
    defaults: &DrainDefaults,
    shelf: &Shelf,
) -> Result<(Standing, Sheet), TradeError> {
    // Dishwasher, seal and run stand differently by book though the stub lies the same: every book's notes are kept,
    // and what any book finds broken is said. Only the height of the stub decides whether the books stand apart.
    let notes = RefCell::new(Vec::<Said>::new());
    let broken = RefCell::new(Vec::new());
    let mut sheet = across(shelf, Family::Plumbing, CAUTION, |book| {
        let answer = fit_under(plan, defaults, book)?;
        let sheet = match &answer {
            DrainAnswer::Fit(fit) => {
                broken.borrow_mut().extend(fit.also.iter().cloned());
                fit.of_height()
            }
            DrainAnswer::CannotSay { .. } => answer.sheet(),
        };
        notes.borrow_mut().extend(sheet.notes.iter().cloned());
        Ok(sheet)
    })?;
    let of_height = sheet.standing;
    also::say(&mut sheet, &broken.into_inner());
    for note in notes.into_inner() {
        if !sheet.notes.contains(&note) {
            sheet.notes.push(note);
        }
    }
    Ok((of_height, sheet))
}

impl DrainAnswer {
    /// The answer as a sheet.
    pub fn sheet(&self) -> Sheet {
        match self {
            Self::Fit(fit) => fit.sheet(),
            Self::CannotSay { missing } => {
                let missing: Vec<Said> = missing.iter().map(|m| Said::from(*m)).collect();
                let sentence = say!("trade-without-nothing-can-said", missing = and(missing.iter().cloned()));
                Sheet::cannot_say(sentence, missing, CAUTION)
            }
        }
    }
}

impl DrainFit {
    /// The answer as a sheet. It stands by the chance that the stub must change, one way or the other, and is near at
    /// best where the plan breaks another value of the code book.
    pub fn sheet(&self) -> Sheet {
        let mut sheet = self.of_height();
        also::say(&mut sheet, &self.also);
        sheet
    }

    /// The answer by the height of the stub alone.
    fn of_height(&self) -> Sheet {
        let chance = self.p_outside();
        let standing = Standing::of_chance(chance);
        let mut sheet = Sheet::new(standing, self.sentence(standing), self.caution);
        sheet.chance_beyond = Some(chance);
        sheet.sigma = Some(say!("trade-in", sigma = format!("{:.3}", self.spread().sigma())));
        sheet.lines.clone_from(&self.lines);
        sheet.limits.clone_from(&self.limits);
        sheet.limits.extend(usual(&self.remedies));
        sheet.assumed.clone_from(&self.assumed);
        sheet.changes = self.remedies.iter().map(|r| Change::new(&r.text, r.enough)).collect();
        sheet.notes.clone_from(&self.notes);
        sheet.notes.extend(self.room_wanted(standing));
        sheet.notes.extend(self.widest());
        sheet.picture = Some(Picture::Sink(self.elevation()));
        sheet
    }

    /// The result in a sentence, with how sure.
    fn sentence(&self, standing: Standing) -> Said {
        let how = standing.lies();
        let stub = say!("trade-stub-above-new-floor-lies", stub = show(self.stub));
        let high = show(self.levels.stub_max);
        let may = in_100(self.p_over_practical);
        match self.verdict {
            Verdict::Fits => {
                // Both limits may be near; the one that is likelier to be passed is named.
                if self.low_decides() {
                    say!(
                        "trade-above-lowest-code-chance",
                        stub = stub,
                        stubmincode = show(self.stub - self.levels.stub_min_code),
                        stubmincode2 = show(self.levels.stub_min_code),
                        how = how,
                        ptoolow = in_100(self.p_too_low)
                    )
                } else {
                    say!(
                        "trade-below-highest-practical-chance",
                        stub = stub,
                        margin = show(self.margin),
                        high = high,
                        how = how,
                        may = may
                    )
                }
            }
            Verdict::Marginal | Verdict::MustMove => {
                let end = if self.verdict == Verdict::MustMove {
                    Phrase("trade-taken-must-move")
                } else {
                    Phrase("trade-plan-move")
                };
                say!(
                    "trade-above-highest-practical-chance",
                    stub = stub,
                    margin = show(-self.margin),
                    high = high,
                    how = how,
                    end = end,
                    may = may,
                    poverabsolute = in_100(self.p_over_absolute)
                )
            }
            Verdict::TooLow => say!(
                "trade-below-lowest-code-chance",
                stub = stub,
                stub2 = show(self.levels.stub_min_code - self.stub),
                stubmincode = show(self.levels.stub_min_code),
                how = how,
                ptoolow = in_100(self.p_too_low)
            ),
        }
    }

    /// How much lower the stub would have to lie, beyond what the changes say, to stand within by the tolerance too.
    fn room_wanted(&self, standing: Standing) -> Option<Said> {
        if standing == Standing::Within || self.second.is_some() || self.low_decides() {
            return None;
        }
        let margin = libm::fmax(self.margin, 0.0);
        let more = least(SIXTEENTH, MOST_WANTED, |by| self.over.chance_over(0.0, margin + by))?;
        Some(match self.verdict {
            Verdict::Fits => {
                say!("trade-another-height-would-put", more = show(more))
            }
            _ => say!("trade-changes-worked-values-taken", more = show(more)),
        })
    }

    /// Errors at the limit that the stub is likelier to pass.
    fn spread(&self) -> &Budget {
        if self.low_decides() { &self.under } else { &self.over }
    }

    /// Whether the lower limit is the one that is likelier to be passed, and not both far away.
    fn low_decides(&self) -> bool {
        self.p_too_low > self.p_over_practical && Standing::of_chance(self.p_too_low) != Standing::Within
    }

    /// The source that widens the answer most.
    fn widest(&self) -> Option<Said> {
        let (source, sigma) = *self.spread().sources().first()?;
        Some(say!("trade-widest-source-doubt-one", source = source, sigma = format!("{sigma:.3}")))
    }

    fn elevation(&self) -> SinkElevation {
        let chain = &self.chain;
        let mut bowls = vec![self.first.levels.outlet];
        bowls.extend(self.second.as_ref().map(|second| second.levels.outlet));
        SinkElevation {
            counter: chain.counter_height,
            bowl_plane: chain.counter_height - chain.offset,
            bowls,
            shell_bottom: self.levels.outlet - chain.shell,
            connection: self.levels.connection,
            disposer: chain.connection == Connection::Disposer,
            trap_arm: self.levels.trap_arm,
            run: chain.run,
            trap_size: chain.trap_size,
            seal: chain.seal,
            cabinet_floor: chain.cabinet_floor,
            stub: self.stub,
            stub_tolerance: 2.0 * self.stub_sigma,
            stub_max: self.levels.stub_max,
            stub_max_tolerance: 2.0 * self.stub_max_sigma,
            stub_abs: self.levels.stub_abs,
            stub_min_code: self.levels.stub_min_code,
            stub_min_cabinet: self.levels.stub_min_cabinet,
        }
    }
}
