//! The shapes of the office desk: packets as they came, a house as its packet holds it, findings beside the forecast, and
//! the two compared.

use serde::Serialize;

use crate::photo_shape::{MarkView, PhotosView};
use crate::shape::view;
use crate::shape::{DrawingView, HouseView, StepView};

view! {
    /// The packets of the office, the last one that came first.
    InboxView {
        /// The packets.
        packets: Vec<ArrivalView>,
        /// How many houses they are of.
        houses: u32,
        /// Files laid into the watched folder that were refused and still lie there, the latest first; the last few.
        refused: Vec<RefusedView>,
        /// How many of them there are.
        refused_in_all: u32,
    }
}

view! {
    /// A file of the watched folder that was refused.
    RefusedView {
        /// Its name as it lies set aside.
        name: String,
        /// When.
        at: String,
        /// Why, and what to do.
        why: String,
    }
}

view! {
    /// One packet as it came.
    ArrivalView {
        /// SHA-256 of the file, in hexadecimal.
        packet: String,
        /// Survey id.
        survey: String,
        /// Label of the house.
        label: String,
        /// Its number among the house's packets.
        number: u32,
        /// When it was received.
        received_at: String,
        /// When it was sealed, by the device's clock; none where the packet cannot be opened any more.
        sealed_at: Option<String>,
        /// Name of the device, as its certificate has it; none where it has none.
        device: Option<String>,
        /// Its length in bytes.
        #[cfg_attr(test, ts(type = "number"))]
        bytes: u64,
        /// Photographs inside.
        photos: u32,
        /// Answers, notes and other entries inside.
        #[cfg_attr(test, ts(type = "number"))]
        entries: u64,
        /// What its seal is worth, in words.
        seal: String,
        /// True when the firm vouches for the key that sealed it.
        certified: bool,
        /// Why it cannot be opened here any more; none while it can.
        trouble: Option<String>,
        /// Conditions with a finding, of those in its forecast.
        entered: u32,
        /// Conditions in its forecast.
        conditions: u32,
        /// True for the packet whose forecast its house is judged by.
        judged: bool,
        /// True when it was sealed after demolition was declared: its forecast counts as none in time.
        after_demolition: bool,
        /// False when the same packet had come before; none in the list.
        first_time: Option<bool>,
    }
}

view! {
    /// A house as one of its packets holds it.
    OfficeHouseView {
        /// Survey id.
        survey: String,
        /// Label.
        label: String,
        /// True where owners see it and those they named, and nobody else.
        closed: bool,
        /// Its packets, the last one first.
        packets: Vec<ArrivalView>,
        /// The one that is shown; what follows is of that one.
        packet: String,
        /// The household's signature in it, if it signed.
        signature: Option<SignatureView>,
        /// What was answered, by place in walking order.
        record: HouseView,
        /// When its demolition began as the office knows it, in a sentence; none while nothing says so.
        demolition: Option<String>,
        /// Its photographs by place.
        photos: PhotosView,
        /// What was calculated.
        calculations: Vec<CalculationLineView>,
        /// What can be printed.
        pages: Vec<PageLineView>,
        /// P50, P80, P90 of the unknown in money, cents.
        #[cfg_attr(test, ts(type = "[number, number, number]"))]
        money_cents: [i64; 3],
        /// The same in days, as they are said.
        days_said: [String; 3],
        /// The caution that goes with every assessment.
        caution: String,
    }
}

view! {
    /// The household's signature under its page.
    SignatureView {
        /// The name as it was typed.
        name: String,
        /// When, by the device's clock.
        at: String,
        /// The sentence that stood above the line.
        said: String,
        /// The lines as the data of an SVG path; none where it was signed by name alone.
        drawn: Option<String>,
        /// Width of the field they were drawn in.
        wide: u16,
        /// Its height.
        high: u16,
    }
}

view! {
    /// One trade calculation in a line.
    CalculationLineView {
        /// Its title.
        title: String,
        /// The place, where the house has several.
        place: Option<String>,
        /// within, near, beyond, ask-locally, cannot-say, quantity.
        standing: String,
        /// The result in a sentence.
        sentence: String,
        /// Who decides.
        caution: String,
    }
}

view! {
    /// A page of the packet.
    PageLineView {
        /// Its name within the packet, as it is asked for.
        name: String,
        /// Its length in bytes.
        #[cfg_attr(test, ts(type = "number"))]
        bytes: u64,
    }
}

view! {
    /// What was said about each condition, and what was found.
    FindingsView {
        /// Survey id.
        survey: String,
        /// Label.
        label: String,
        /// The packet whose forecast counts.
        packet: String,
        /// When that was frozen.
        frozen_at: String,
        /// The stages in which a house is opened, each with its conditions, the likeliest first.
        stages: Vec<StageView>,
        /// What was found although the forecast does not hold it, in the order it was first entered.
        others: Vec<OtherRowView>,
        /// What else can be found: conditions of the catalog that have no row yet, by name.
        choices: Vec<OtherChoiceView>,
        /// The caution that goes with every assessment.
        caution: String,
    }
}

view! {
    /// One stage of the work.
    StageView {
        /// Its id.
        id: String,
        /// Its name.
        name: String,
        /// What it lays bare.
        rows: Vec<FindingRowView>,
    }
}

view! {
    /// One condition: what was said, and what was found.
    FindingRowView {
        /// Its key.
        key: String,
        /// Its name.
        name: String,
        /// The place, where the house has several.
        place: Option<String>,
        /// Probability said.
        probability: f64,
        /// Probability with the plan of work alone.
        base: f64,
        /// Where the probability could fairly lie.
        band: Option<[f64; 2]>,
        /// "about 7 in 10".
        about_in10: String,
        /// "likely".
        words: String,
        /// Cost if it is there: low, likely, high, cents.
        #[cfg_attr(test, ts(type = "[number, number, number]"))]
        cost_cents: [i64; 3],
        /// Days if it is there, as they are said: low, likely, high.
        days_said: [String; 3],
        /// What to do about it, as it was advised.
        advice: String,
        /// True when the base price holds it, so that it is in no sum.
        in_base_price: bool,
        /// Who decides.
        caution: String,
        /// What moved the odds most, in words.
        because: Vec<String>,
        /// How the odds came about.
        path: Vec<StepView>,
        /// Photographs of the survey that show what speaks for or against it.
        pictures: Vec<SurveyPictureView>,
        /// The finding that stands.
        finding: Option<FoundView>,
        /// Findings entered before that one; they stay in the record.
        earlier: u32,
    }
}

view! {
    /// One condition nobody forecast, and what was found.
    OtherRowView {
        /// Its key.
        key: String,
        /// Its name.
        name: String,
        /// The place, where the house has several.
        place: Option<String>,
        /// The finding that stands.
        finding: FoundView,
        /// Findings entered before that one; they stay in the record.
        earlier: u32,
    }
}

view! {
    /// A condition of the catalog that the forecast does not hold.
    OtherChoiceView {
        /// Its key.
        key: String,
        /// Its name.
        name: String,
        /// The place, where the house has several.
        place: Option<String>,
    }
}

view! {
    /// A photograph of the survey.
    SurveyPictureView {
        /// Its digest.
        digest: String,
        /// When it was taken in.
        at: String,
        /// The place in words; none where it belongs to none.
        place: Option<String>,
        /// The questions it shows.
        shows: Vec<String>,
        /// Width of the upright picture, pixels.
        width: u32,
        /// Height of the upright picture, pixels.
        height: u32,
        /// The marks that stand, in the order they were made.
        marks: Vec<MarkView>,
    }
}

/// What became of a condition.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "kebab-case")]
pub enum OutcomeView {
    /// It was there.
    Found,
    /// The place was opened and it was not there.
    NotThere,
    /// The place was never opened.
    NotOpened,
}

/// Who bore a cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "kebab-case")]
pub enum BorneView {
    /// It stood in the price.
    InPrice,
    /// An allowance of the contract.
    Allowance,
    /// The client, by a change order.
    ChangeOrder,
    /// The firm.
    Absorbed,
    /// Nobody said.
    NotSaid,
}

view! {
    /// A finding.
    FoundView {
        /// What was found.
        outcome: OutcomeView,
        /// What it cost, cents.
        #[cfg_attr(test, ts(type = "number"))]
        cost_cents: i64,
        /// Working days it added, in tenths.
        #[cfg_attr(test, ts(type = "number"))]
        days_tenths: i64,
        /// Who bore the cost.
        borne: BorneView,
        /// Words.
        note: String,
        /// Its photograph, by digest.
        photo: Option<String>,
        /// Who entered it.
        by: String,
        /// When.
        at: String,
    }
}

view! {
    /// Forecast beside finding for one house.
    ComparedView {
        /// Survey id.
        survey: String,
        /// Label.
        label: String,
        /// When the forecast was frozen.
        frozen_at: String,
        /// Conditions of the forecast.
        conditions: u32,
        /// Of those, opened: only they are scored.
        opened: u32,
        /// Of those opened, found.
        found: u32,
        /// What it came to, cents.
        #[cfg_attr(test, ts(type = "number"))]
        came_cents: i64,
        /// Of that, found after the price was fixed, cents.
        #[cfg_attr(test, ts(type = "number"))]
        late_cents: i64,
        /// How many of the twenty dots lie below it; none where the forecast was frozen without them.
        below: Option<u32>,
        /// Where that lies, as "between P50 and P80".
        money_lies: String,
        /// What it came to, hung through the money that was forecast; none where that was frozen without its shape.
        money: Option<DrawingView>,
        /// Days it took, as they are said.
        days_said: String,
        /// Where that lies.
        days_lies: String,
        /// The same for the days.
        days: Option<DrawingView>,
        /// Where the money fell, in the order the bar is drawn.
        fell: Vec<FellView>,
        /// Conditions that were opened, the largest difference first.
        rows: Vec<DifferenceView>,
        /// Conditions that were not opened or have no finding yet: they count neither way.
        unopened: Vec<UnopenedView>,
        /// How the odds scored; none while nothing was opened.
        scores: Option<ScoresView>,
        /// The caution that goes with every assessment.
        caution: String,
    }
}

view! {
    /// A part of the money.
    FellView {
        /// Who bore it.
        borne: BorneView,
        /// How much, cents.
        #[cfg_attr(test, ts(type = "number"))]
        cents: i64,
        /// Its share of the whole, 0 to 1.
        share: f64,
    }
}

view! {
    /// One condition that was opened.
    DifferenceView {
        /// Its key.
        key: String,
        /// Its name, with the place where the house has several.
        name: String,
        /// "about 7 in 10"; none where the forecast held it out of scope.
        about_in10: Option<String>,
        /// What was found.
        outcome: OutcomeView,
        /// What was carried for it on average, cents.
        #[cfg_attr(test, ts(type = "number"))]
        carried_cents: i64,
        /// What it came to, cents.
        #[cfg_attr(test, ts(type = "number"))]
        came_cents: i64,
        /// `carried_cents` as a share of the longest bar, 0 to 1.
        carried: f64,
        /// `came_cents` as a share of the longest bar, 0 to 1.
        came: f64,
        /// Found although hardly expected.
        missed: bool,
        /// Not there although expected.
        false_alarm: bool,
        /// How the odds came about, where one answer led the wrong way.
        misled: Option<MisledView>,
    }
}

view! {
    /// How the odds of a miss or a false alarm came about.
    MisledView {
        /// Probability with the plan of work alone.
        base: f64,
        /// The steps from there.
        path: Vec<StepView>,
        /// The one of them that led furthest the wrong way.
        wrong: u32,
    }
}

view! {
    /// A condition nobody laid bare.
    UnopenedView {
        /// Its key.
        key: String,
        /// Its name, with the place where the house has several.
        name: String,
        /// "about 7 in 10".
        about_in10: String,
        /// True when somebody entered that it was not opened; false while nothing was entered.
        entered: bool,
    }
}

view! {
    /// Scores of the odds; smaller is better.
    ScoresView {
        /// Brier score of the forecast.
        brier: f64,
        /// Brier score of the base rates of the era.
        brier_base: f64,
        /// True while so few were opened that luck weighs heavily.
        few: bool,
    }
}
