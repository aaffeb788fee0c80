//! What the pages say, as plain data: words as they are to be read, numbers only where something is drawn from them.
//!
//! Every word enters the pages as data and is never read as markup; control characters, direction marks and letters
//! the two faces lack are replaced.

use serde::Serialize;
use survey::units::Money;
use survey::{Digest, Stamp, SurveyId};

/// All that the pages say.
#[derive(Clone, Debug, Serialize)]
pub struct PagesData {
    /// Name of the house.
    pub label: String,
    /// Id of the survey.
    pub survey: SurveyId,
    /// Number of the packet among this survey's, from 1.
    pub number: u32,
    /// The firm, if it gave its name.
    pub organization: Option<String>,
    /// When it was sealed; the date of the document.
    pub sealed_at: Stamp,
    /// Who had declared demolition by then, and when: every page says that it was made afterwards.
    pub demolition: Option<(String, Stamp)>,
    /// Who surveyed, each once.
    pub surveyed_by: Vec<String>,
    /// Version of the catalog in words, as "7".
    pub catalog: String,
    /// Digest of the catalog.
    pub catalog_digest: Digest,
    /// Name and version of what computed.
    pub engine: String,
    /// Digest of the frozen assessment in the packet.
    pub assessment_digest: Digest,
    /// Entries in the log the assessment was made from.
    pub log_position: u64,
    /// The result as a title, as "Carry $7,900; look into the panel before signing".
    pub title: String,
    /// How sure, in one or two sentences under the title.
    pub lead: String,
    /// The unknown in money and days.
    pub money: MoneyBlock,
    /// What to do, kind by kind: the middle of the brief.
    pub todo: Vec<TodoRow>,
    /// The conditions that make the sum most uncertain, the worst first: three.
    pub uncertain: Vec<WeightRow>,
    /// What is likely concealed, in the order to be read.
    pub conditions: Vec<ConditionRow>,
    /// Trade calculations, in the order of the walk.
    pub calculations: Vec<CalculationBlock>,
    /// Looks worth taking before signing, best first.
    pub looks: Vec<LookRow>,
    /// All answers, by station in the order of the walk.
    pub stations: Vec<Station>,
    /// What is not known, and why.
    pub unknown: Vec<UnknownRow>,
    /// The photographs.
    pub photos: Vec<PhotoBlock>,
    /// What the pages do not say; who decides. One paragraph each.
    pub disclaimers: Vec<String>,
}

/// A sum with the standard error of its simulation.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize)]
pub struct Amount {
    /// The sum.
    pub sum: Money,
    /// Monte-Carlo standard error.
    pub error: Money,
}

/// The unknown in money and days.
#[derive(Clone, Debug, Serialize)]
pub struct MoneyBlock {
    /// Mean of the sum.
    pub mean: Amount,
    /// Even odds.
    pub p50: Amount,
    /// Eight in ten below.
    pub p80: Amount,
    /// Nine in ten below.
    pub p90: Amount,
    /// Contract price, if given.
    pub contract: Option<Money>,
    /// Extra working days: P50, P80, P90.
    pub days: [f64; 3],
    /// The drawing of the money; without one the sums stand on a rule.
    #[serde(skip)]
    pub drawing: Option<Drawn>,
    /// The drawing of the days.
    #[serde(skip)]
    pub days_drawing: Option<Drawn>,
    /// Conditions that weigh most, the heaviest first.
    pub weights: Vec<WeightRow>,
    /// Sentences below the drawing: number of draws, chances past shares of the contract, what is already in the price.
    pub notes: Vec<String>,
}

/// A drawing and what it shows in words.
#[derive(Clone, PartialEq, Debug)]
pub struct Drawn {
    /// SVG in plain colors. What is no SVG is left out of the pages.
    pub svg: String,
    /// For those who hear it.
    pub said: String,
}

/// A condition that weighs in the money.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct WeightRow {
    /// Its name.
    pub name: String,
    /// Its probability in words, as "about 7 in 10".
    pub words: String,
    /// What it costs on average over all houses like this one.
    pub average: Money,
    /// What it costs if it is there, low and high.
    pub range: [Money; 2],
}

/// One condition.
#[derive(Clone, Debug, Serialize)]
pub struct ConditionRow {
    /// What it is and where.
    pub name: String,
    /// Its probability in words, as "about 7 in 10".
    pub words: String,
    /// Its probability, 0 to 1; outside is drawn at the nearer end.
    pub odds: f64,
    /// Likely band of the probability, 0 to 1, if there is one.
    pub band: Option<[f64; 2]>,
    /// Cost if it is there, low.
    pub low: Money,
    /// Cost if it is there, likely.
    pub likely: Money,
    /// Cost if it is there, high.
    pub high: Money,
    /// What to do in a word or two, as "Allowance".
    pub action: String,
    /// How, as "$1,300, unused part credited".
    pub how: String,
    /// Which licensed person decides, and that local code governs, where there is a hazard.
    pub caution: Option<String>,
    /// Answers that moved it, strongest first, as "Bathroom directly above: up".
    pub because: Vec<String>,
    /// What it is, in a sentence.
    pub what: String,
    /// Working days it adds, when the work meets it and who is needed, as "1/2 to 2 days · rough-in · plumber".
    pub when: String,
    /// From the base rate to the odds, answer by answer; empty: told in the table only.
    pub path: Vec<ClueRow>,
    /// Photographs that show its clues, as positions in the list of photographs.
    pub photos: Vec<usize>,
    /// Looks that could change it.
    pub looks: Vec<String>,
}

/// One step of how the odds of a condition were reached.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ClueRow {
    /// The question and its answer; or where it starts, or several small steps as one.
    pub what: String,
    /// How far it moved, in words.
    pub moved: String,
    /// Odds before it, 0 to 1.
    pub from: f64,
    /// Odds after it, 0 to 1.
    pub to: f64,
}

/// Conditions for which the same is to be done.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct TodoRow {
    /// What, as "Allowance".
    pub action: String,
    /// The conditions, each with how: "Duct in the bulkhead: $1,300". The heaviest first.
    pub names: Vec<String>,
    /// How many more, in words; empty: none.
    pub more: String,
}

/// A trade calculation.
#[derive(Clone, Debug, Serialize)]
pub struct CalculationBlock {
    /// Its name, as "Gas run".
    pub title: String,
    /// The result as a sentence, as "The drain stub must come down 5 1/4″".
    pub sentence: String,
    /// What would have to be known.
    pub missing: Vec<String>,
    /// Section or elevation as SVG in plain colors. What is no SVG is left out of the pages.
    #[serde(skip)]
    pub drawing: Option<String>,
    /// Single changes that would help.
    pub changes: Vec<String>,
    /// The arithmetic, a name and a reading each, in order.
    pub arithmetic: Vec<[String; 2]>,
    /// Values used.
    pub limits: Vec<LimitRow>,
    /// What was assumed because nothing was measured.
    pub assumed: Vec<String>,
    /// What else to know.
    pub notes: Vec<String>,
    /// Who decides.
    pub caution: String,
}

/// A limit and where it comes from.
#[derive(Clone, Debug, Serialize)]
pub struct LimitRow {
    /// What is limited.
    pub name: String,
    /// The limit, as "30″".
    pub value: String,
    /// Document, edition, section; or "common practice, no source".
    pub source: String,
}

/// A look worth taking.
#[derive(Clone, Debug, Serialize)]
pub struct LookRow {
    /// What to look at.
    pub what: String,
    /// How long, as "4 min".
    pub time: String,
    /// What it is worth, as "$310", or empty.
    pub worth: String,
    /// What it could change, and whom to ask first.
    pub why: String,
}

/// One station of the walk.
#[derive(Clone, Debug, Serialize)]
pub struct Station {
    /// Its name.
    pub name: String,
    /// Its answers.
    pub answers: Vec<AnswerRow>,
}

/// One answer.
#[derive(Clone, Debug, Serialize)]
pub struct AnswerRow {
    /// The question.
    pub question: String,
    /// The answer as entered.
    pub answer: String,
    /// Tolerance, as "± 1/16″".
    pub tolerance: Option<String>,
    /// Who answered.
    pub who: String,
    /// When, as "3 March, 10:42".
    pub when: String,
    /// Rival answers that disagree, each with who and when; drawn with "≠".
    pub disagrees: Vec<String>,
}

/// Something that is not known.
#[derive(Clone, Debug, Serialize)]
pub struct UnknownRow {
    /// Where.
    pub place: String,
    /// The question.
    pub question: String,
    /// Why: "could not tell", "could not reach: furniture in the way", "not asked".
    pub why: String,
}

/// One photograph.
#[derive(Clone, Debug, Serialize)]
pub struct PhotoBlock {
    /// A small upright JPEG, at most 320 pixels on its longer side. Bytes that are no JPEG are left out of the pages,
    /// and the pages say so.
    #[serde(skip)]
    pub thumbnail: Vec<u8>,
    /// Marks on it, as SVG of the picture's own proportions to lie over it.
    #[serde(skip)]
    pub marks: Option<String>,
    /// What it shows, in words; also read out in place of the picture.
    pub caption: String,
    /// Where it was taken.
    pub place: String,
    /// When, as "3 March, 10:42".
    pub time: String,
    /// Digest of the original in the packet.
    pub digest: Digest,
}
