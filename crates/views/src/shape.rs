//! The shapes of what screens show. Money is in whole cents; times are RFC 3339 texts.

use serde::{Deserialize, Serialize};

macro_rules! view {
    ($(#[$meta:meta])* $name:ident { $($(#[$field_meta:meta])* $field:ident: $type:ty,)* }) => {
        $(#[$meta])*
        #[derive(Clone, Debug, PartialEq, Serialize)]
        #[cfg_attr(test, derive(ts_rs::TS))]
        #[serde(rename_all = "camelCase")]
        pub struct $name { $($(#[$field_meta])* pub $field: $type,)* }
    };
}
pub(crate) use view;

view! {
    /// One house in the list.
    #[derive(Deserialize)]
    HouseCard {
        /// Survey id.
        survey: String,
        /// Label.
        label: String,
        /// When it was last touched.
        last_touched: String,
        /// Items answered of those that matter now.
        answered: u32,
        /// Items that matter now.
        wanted: u32,
        /// Photographs.
        photos: u32,
        /// P80 of the latest assessment, cents.
        #[cfg_attr(test, ts(type = "number | null"))]
        money_p80_cents: Option<i64>,
        /// The last packet sealed on this device.
        packet: Option<CardPacketView>,
        /// True where demolition was declared: its walk is over.
        demolition: bool,
    }
}

view! {
    /// The last packet of a house in the list.
    #[derive(Deserialize)]
    CardPacketView {
        /// Its number.
        number: u32,
        /// Entries recorded since.
        since: u32,
    }
}

view! {
    /// One house.
    HouseView {
        /// Survey id.
        survey: String,
        /// Label.
        label: String,
        /// Stations in walking order, those with anything to show.
        stations: Vec<StationView>,
        /// Places that were taken out; what was recorded there is kept.
        taken_out: Vec<TakenOutView>,
        /// Photographs.
        photos: u32,
        /// What was frozen last.
        frozen: Option<FrozenView>,
        /// The declaration of demolition that ended the walk.
        demolition: Option<DemolitionView>,
        /// Declarations that were withdrawn, in the order of the log.
        withdrawn: Vec<WithdrawnView>,
    }
}

view! {
    /// Demolition was declared: the walk is over.
    DemolitionView {
        /// Who declared it.
        by: String,
        /// When.
        at: String,
        /// A remark.
        reason: Option<String>,
        /// What a walk recorded after it: kept, and counted nowhere.
        set_aside: Vec<SetAsideView>,
        /// False once the house was sealed after it: the office may have been told.
        can_withdraw: bool,
    }
}

view! {
    /// One thing that was recorded too late.
    SetAsideView {
        /// What was asked, or the place, or the house.
        what: String,
        /// What was said.
        said: String,
        /// Who.
        by: String,
        /// When.
        at: String,
    }
}

view! {
    /// A declaration of demolition that was withdrawn.
    WithdrawnView {
        /// Who withdrew it.
        by: String,
        /// When.
        at: String,
        /// Why.
        reason: String,
    }
}

view! {
    /// An assessment that was frozen, in a line.
    FrozenView {
        /// When.
        made_at: String,
        /// Money to carry at P80, in cents.
        #[cfg_attr(test, ts(type = "number"))]
        p80_cents: i64,
        /// Catalog version and the first digits of its digest.
        catalog: String,
        /// Name and version of what computed.
        engine: String,
    }
}

view! {
    /// One station of the walk.
    StationView {
        /// Station id.
        id: String,
        /// Id of the place: the station's, or that of one of several.
        place: String,
        /// Label of the station.
        label: String,
        /// Name of the place, where the house has several.
        place_label: Option<String>,
        /// Its items.
        rows: Vec<RowView>,
    }
}

view! {
    /// A place that was taken out.
    TakenOutView {
        /// Id of the place.
        place: String,
        /// Station it is a place of.
        station: String,
        /// Its name.
        label: String,
        /// Why.
        reason: Option<String>,
        /// Answers recorded there, kept.
        answers: u32,
    }
}

/// What stands for an item.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "kebab-case")]
pub enum RowKind {
    /// An answer.
    Answer,
    /// "Can't tell".
    CantTell,
    /// "Could not reach".
    CouldNotReach,
    /// Claims that differ.
    Disagreement,
    /// Not answered, and it matters now.
    Open,
}

view! {
    /// One item.
    RowView {
        /// Item id.
        item: String,
        /// The question.
        question: String,
        /// The answer in words.
        answer: String,
        /// What stands.
        kind: RowKind,
        /// The answer as it was entered, where that differs.
        entered: Option<String>,
        /// Tolerance in words.
        tolerance: Option<String>,
        /// Who.
        by: Option<String>,
        /// When.
        at: Option<String>,
        /// Claims that differ.
        rivals: Vec<RivalView>,
        /// Photographs that show it.
        photos: u32,
    }
}

view! {
    /// One of several claims.
    RivalView {
        /// The answer in words.
        answer: String,
        /// Who.
        by: String,
        /// When.
        at: String,
    }
}

view! {
    /// Odds and money as the answers stand now. Nothing of it is frozen.
    OddsNowView {
        /// What is exceeded in 2 of 10 houses like this one, in cents; none where the odds cannot be worked out.
        #[cfg_attr(test, ts(type = "number | null"))]
        p80_cents: Option<i64>,
        /// All of it, if it was asked for.
        assessment: Option<AssessmentView>,
        /// Whether the reasons are in it, and how each condition came to its odds.
        whole: bool,
        /// What to do first where the odds cannot be worked out.
        trouble: Option<String>,
    }
}

view! {
    /// An assessment, frozen or as the answers stand now.
    AssessmentView {
        /// When it was worked out.
        made_at: String,
        /// Catalog version and the first digits of its digest.
        catalog: String,
        /// Engine.
        engine: String,
        /// The unknown in money.
        money: MoneyView,
        /// The unknown in working days.
        days: DaysView,
        /// Conditions that weigh most in the money, the heaviest first.
        weights: Vec<WeightView>,
        /// Conditions in scope, likeliest first.
        conditions: Vec<ConditionView>,
        /// The caution that goes with it.
        caution: String,
    }
}

view! {
    /// A trade calculation.
    CalculationView {
        /// Its word.
        word: String,
        /// Its title.
        title: String,
        /// within, near, beyond, ask-locally, cannot-say, quantity.
        standing: String,
        /// The result in a sentence.
        sentence: String,
        /// What would have to be known.
        missing: Vec<String>,
        /// Single changes that would help.
        changes: Vec<String>,
        /// The arithmetic: a name and a reading each.
        arithmetic: Vec<LineView>,
        /// Values used.
        limits: Vec<LimitView>,
        /// What was taken because nobody said.
        assumed: Vec<String>,
        /// What else to know.
        notes: Vec<String>,
        /// Who decides.
        caution: String,
        /// The drawing.
        drawing: Option<DrawingView>,
    }
}

view! {
    /// One line of arithmetic.
    LineView {
        /// What comes out.
        label: String,
        /// The sum with its result.
        text: String,
    }
}

view! {
    /// A value used.
    LimitView {
        /// The rule.
        rule: String,
        /// The value with its unit.
        value: String,
        /// Document, edition, clause, and whether it was published.
        place: String,
    }
}

view! {
    /// A drawing as SVG, once for each way of holding a screen: text in a drawing is never shrunk.
    DrawingView {
        /// For a tablet held upright.
        wide: String,
        /// For a tablet held on its side, with words beside it.
        beside: String,
        /// For a phone.
        narrow: String,
    }
}

view! {
    /// Money, cents.
    MoneyView {
        /// Mean.
        #[cfg_attr(test, ts(type = "number"))]
        mean_cents: i64,
        /// P50.
        #[cfg_attr(test, ts(type = "number"))]
        p50_cents: i64,
        /// P80.
        #[cfg_attr(test, ts(type = "number"))]
        p80_cents: i64,
        /// P90.
        #[cfg_attr(test, ts(type = "number"))]
        p90_cents: i64,
        /// How far the simulation may be off at P80: one standard error, cents.
        #[cfg_attr(test, ts(type = "number"))]
        p80_error_cents: i64,
        /// Joint draws made.
        draws: u32,
        /// The twenty dots; none of an assessment that was frozen without its shape.
        drawing: Option<DrawingView>,
    }
}

view! {
    /// Working days.
    DaysView {
        /// Mean.
        mean: f64,
        /// P50.
        p50: f64,
        /// P80.
        p80: f64,
        /// P90.
        p90: f64,
        /// P50, P80, P90 in words, to the half day.
        said: [String; 3],
        /// The draws in bars; none of an assessment that was frozen without their shape.
        drawing: Option<DrawingView>,
    }
}

view! {
    /// A condition that weighs in the money. Shares are parts of one length, the same for all.
    WeightView {
        /// Key of the condition.
        id: String,
        /// Its name, with the place where the house has several.
        name: String,
        /// "about 7 in 10".
        about_in10: String,
        /// What it costs on average over all houses like this one, cents.
        #[cfg_attr(test, ts(type = "number"))]
        average_cents: i64,
        /// What it costs if it is there, low, cents.
        #[cfg_attr(test, ts(type = "number"))]
        low_cents: i64,
        /// And high.
        #[cfg_attr(test, ts(type = "number"))]
        high_cents: i64,
        /// The average, 0 to 1.
        average: f64,
        /// The low end, 0 to 1.
        low: f64,
        /// The high end, 0 to 1.
        high: f64,
    }
}

view! {
    /// One condition.
    ConditionView {
        /// Key of the condition.
        id: String,
        /// Name.
        name: String,
        /// Name of its place, where the house has several.
        place: Option<String>,
        /// P(present), 0 to 1.
        probability: f64,
        /// Before any answer, 0 to 1.
        base: f64,
        /// "likely", "expect it" and so on.
        words: String,
        /// "about 7 in 10".
        about_in10: String,
        /// Where it could fairly lie, 0 to 1: low and high.
        band: Option<[f64; 2]>,
        /// The same in words: "between 5 and 8 in 10"; empty without a band.
        band_words: String,
        /// Kind of recommendation.
        recommendation: String,
        /// The recommendation in a sentence.
        recommendation_words: String,
        /// Cost if it becomes one, cents.
        #[cfg_attr(test, ts(type = "number"))]
        cost_low_cents: i64,
        /// Likely cost, cents.
        #[cfg_attr(test, ts(type = "number"))]
        cost_likely_cents: i64,
        /// High cost, cents.
        #[cfg_attr(test, ts(type = "number"))]
        cost_high_cents: i64,
        /// Who decides.
        caution: String,
        /// Answers that moved it, in words.
        because: Vec<String>,
        /// How the estimate came about, from the base rate, answer by answer; empty where nothing moved it, and of an
        /// assessment that was frozen without it.
        path: Vec<StepView>,
    }
}

view! {
    /// A step from the base rate of a condition to its estimate.
    StepView {
        /// What was asked; how many answers, where several are one step.
        question: String,
        /// What was answered; empty where several are one step.
        answer: String,
        /// How far it moved the estimate, in words: "far up".
        how: String,
        /// P(present) after it, 0 to 1.
        to: f64,
        /// The same in words: "about 7 in 10".
        about_in10: String,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit_shape::*;
    use crate::link_shape::*;
    use crate::office_shape::*;
    use crate::packet_shape::*;
    use crate::photo_shape::*;
    use crate::record_shape::*;
    use crate::settings_shape::*;
    use crate::walk_shape::*;
    use ts_rs::{Config, TS};

    /// The committed TypeScript must be what these types give; `UPDATE_BINDINGS=1` writes it.
    #[test]
    fn the_committed_typescript_is_fresh() {
        let config = Config::default();
        macro_rules! declared {
            ($($name:ident),* $(,)?) => { vec![$((stringify!($name), <$name as TS>::decl(&config))),*] };
        }
        let house = declared![
            HouseCard,
            CardPacketView,
            HouseView,
            StationView,
            TakenOutView,
            RowKind,
            RowView,
            RivalView,
            AssessmentView,
            FrozenView,
            DemolitionView,
            SetAsideView,
            WithdrawnView,
            OddsNowView,
            DrawingView,
            MoneyView,
            DaysView,
            WeightView,
            ConditionView,
            StepView
        ];
        let walk = declared![
            WalkView,
            StopView,
            StopCardView,
            CardKind,
            PhotoView,
            CardView,
            OptionView,
            StandingView,
            ActView,
            DoneView,
            LengthView,
            LookNextView,
            LookView,
            ChangeView,
            AskView,
            LeavingView,
            AmissView,
            ClashView,
            CountsView,
            StartFormView,
            LeftView
        ];
        let photos = declared![
            PhotosView,
            PhotoAboutView,
            PhotoPlaceView,
            PhotoCardView,
            PhotoTakenView,
            PhotoMarkedView,
            MarkKind,
            MarkView,
            MeasuredOnPhotoView
        ];
        let fits = declared![
            FitsView,
            TradeView,
            FitRowView,
            FitView,
            InputView,
            FieldKind,
            FieldView,
            CalculationView,
            LineView,
            LimitView
        ];
        let packets = declared![PacketsView, PacketView, SealingView, HandedOverView, HouseholdPageView];
        let link = declared![
            OfficeLink,
            TakenView,
            VersionView,
            PublishedView,
            LinkedOffice,
            Pairing,
            SendingState,
            Sending,
            Tablet,
            Invitation,
            QrCode,
            Arriving
        ];
        let settings = declared![SettingsView, ScreensView, CodesView, BookView];
        let office = declared![
            InboxView,
            ArrivalView,
            RefusedView,
            OfficeHouseView,
            SignatureView,
            CalculationLineView,
            PageLineView,
            FindingsView,
            StageView,
            FindingRowView,
            OtherRowView,
            OtherChoiceView,
            SurveyPictureView,
            HoldsView,
            OutcomeView,
            BorneView,
            FoundView,
            ComparedView,
            FellView,
            DifferenceView,
            MisledView,
            UnopenedView,
            ScoresView
        ];
        let record = declared![
            TrackView,
            RecordHouseView,
            RecordSumView,
            RecordView,
            RecordScoresView,
            BinView,
            RecordSumsView,
            RecordGroupView,
            LeftOutView,
            LearningView,
            LearningState,
            HeldOutView,
            LearnedLineView,
            LearnedNumberView,
            DecisionView
        ];
        let files = [
            ("house", house),
            ("fits", fits),
            ("walk", walk),
            ("photos", photos),
            ("packets", packets),
            ("link", link),
            ("settings", settings),
            ("office", office),
            ("record", record),
        ];
        for (file, declared) in &files {
            let mut text = String::from(MADE);
            for (other, theirs) in files.iter().filter(|(other, _)| other != file) {
                let needs = |name: &&str| declared.iter().any(|(_, decl)| says(decl, name));
                let names: Vec<&str> = theirs.iter().map(|(name, _)| *name).filter(needs).collect();
                if !names.is_empty() {
                    text.push_str(&format!("import type {{ {} }} from './{other}';\n", names.join(", ")));
                }
            }
            declared.iter().for_each(|(_, decl)| text.push_str(&format!("\nexport {decl}\n")));
            fresh(&format!("{file}.ts"), &text);
        }
        let all = files.iter().map(|(file, _)| format!("export type * from './{file}';\n"));
        fresh("views.ts", &(String::from(MADE) + &all.collect::<String>()));
    }

    const MADE: &str = "// Made from crates/views/src/*shape.rs by the test in shape.rs; run it with UPDATE_BINDINGS=1 to write.\n";

    /// True when a declaration names a type.
    fn says(decl: &str, name: &str) -> bool {
        decl.split(|c: char| !c.is_ascii_alphanumeric()).any(|word| word == name)
    }

    fn fresh(file: &str, text: &str) {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../ui/src/lib/bindings/").to_owned() + file;
        #[allow(clippy::disallowed_methods, reason = "a switch of this test only")]
        let update = std::env::var_os("UPDATE_BINDINGS").is_some();
        if update {
            std::fs::write(&path, text).unwrap();
        }
        let committed = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(committed == text, "{path} is stale: run UPDATE_BINDINGS=1 cargo test -p views");
    }
}
