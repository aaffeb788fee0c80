//! What the pages of the trades, of the household and about likely change orders say. Figures are in words already;
//! photographs and calculations are positions in the office's lists.

use std::collections::BTreeMap;

use serde::Serialize;
use words::Words;

use super::data::{Drawn, LookRow, PagesData, UnknownRow};
use crate::Tables;

/// All pages and tables of a packet.
#[derive(Clone, Debug)]
pub struct Book {
    /// The office's pages; what is said of house, date and firm on all others too.
    pub office: PagesData,
    /// Pages of the trades that the house concerns.
    pub trades: Vec<TradePages>,
    /// The household's page.
    pub household: HouseholdPages,
    /// Likely change orders.
    pub change_orders: ChangeOrderPages,
    /// The tables.
    pub tables: Tables,
}

/// The languages of a packet's pages.
#[derive(Clone, Copy)]
pub struct Readers<'a> {
    /// Of all pages but the household's.
    pub crew: &'a Words,
    /// Of the household's pages.
    pub household: &'a Words,
}

/// How a firm's pages look.
#[derive(Clone, Default, Debug)]
pub struct Style {
    /// Line under the firm's name, as street and telephone.
    pub address: Option<String>,
    /// The firm's mark as SVG in plain colors.
    pub mark: Option<String>,
    /// The firm's own templates and drawings by file name: one called as one of ours stands in for it.
    pub templates: BTreeMap<String, Vec<u8>>,
}

/// What one trade is to know.
#[derive(Clone, Debug, Serialize)]
pub struct TradePages {
    /// File name without folder and ending: "trade-plumber".
    #[serde(skip)]
    pub file: String,
    /// Running head, as "for the plumber".
    pub running: String,
    /// The result as a title.
    pub title: String,
    /// One or two sentences under it.
    pub lead: String,
    /// What this trade may meet, likeliest first.
    pub conditions: Vec<TradeRow>,
    /// What was measured that bears on it.
    pub measured: Vec<ReadingRow>,
    /// What else was answered that bears on it.
    pub seen: Vec<ReadingRow>,
    /// Its calculations, as positions in the office's list.
    #[serde(skip)]
    pub calculations: Vec<usize>,
    /// Openings that may be made or closed.
    pub openings: Vec<OpeningRow>,
    /// Looks it can take.
    pub looks: Vec<LookRow>,
    /// What is asked of it, one sentence each.
    pub asks: Vec<String>,
    /// What is not known of all this, and why.
    pub unknown: Vec<UnknownRow>,
    /// Photographs, as positions in the office's list.
    #[serde(skip)]
    pub photos: Vec<usize>,
    /// Who decides.
    pub caution: String,
}

/// A condition as a trade reads it: no money.
#[derive(Clone, Debug, Serialize)]
pub struct TradeRow {
    /// Its name.
    pub name: String,
    /// What it is.
    pub what: String,
    /// Its probability in words.
    pub words: String,
    /// Its probability, 0 to 1.
    pub odds: f64,
    /// Days, stage, trades.
    pub when: String,
    /// Who decides.
    pub caution: String,
    /// Answers that moved it.
    pub because: Vec<String>,
}

/// A reading.
#[derive(Clone, Debug, Serialize)]
pub struct ReadingRow {
    /// What was measured or asked.
    pub what: String,
    /// Where.
    pub place: String,
    /// The reading.
    pub reading: String,
    /// How close, as "±1/8″"; empty: not said.
    pub good_to: String,
    /// Photographs that show it, as "4, 7"; empty: none.
    pub photos: String,
}

/// An opening that may be made, and who closes it.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct OpeningRow {
    /// What it is for.
    pub what: String,
    /// Where.
    pub place: String,
    /// How likely it is needed, in words.
    pub words: String,
    /// How many and how large, as "2 (1 to 4), 16″ × 48″"; or that the plan opens the place.
    pub size: String,
    /// When the work meets it.
    pub stage: String,
    /// Who opens.
    pub opens: String,
    /// Who closes.
    pub closes: String,
}

/// What the household is told.
#[derive(Clone, Debug, Serialize)]
pub struct HouseholdPages {
    /// Running head.
    pub running: String,
    /// Title.
    pub title: String,
    /// Under it.
    pub lead: String,
    /// What may be inside: what, how likely, what it means for the household.
    pub inside: Vec<[String; 3]>,
    /// How many smaller ones are not listed; empty: none.
    pub more: String,
    /// Money and days in sentences.
    pub ranges: Vec<String>,
    /// Calendar of what is off.
    #[serde(skip)]
    pub calendar: Option<Drawn>,
    /// Clashes with how the household lives, a sentence each.
    pub clashes: Vec<String>,
    /// What is off and for how long: task, services, hours, what helps.
    pub off: Vec<[String; 4]>,
    /// Dust and holes.
    pub dust: Vec<String>,
    /// What to move.
    pub to_move: Vec<String>,
    /// Medical devices.
    pub medical: Vec<String>,
    /// Hazards: what is presumed or looked at first, and who decides.
    pub cautions: Vec<[String; 2]>,
    /// The end of the page.
    pub questions: String,
}

/// Likely change orders, agreed on before anything is opened.
#[derive(Clone, Debug, Serialize)]
pub struct ChangeOrderPages {
    /// Running head.
    pub running: String,
    /// Title.
    pub title: String,
    /// Under it.
    pub lead: String,
    /// One clause each.
    pub orders: Vec<OrderBlock>,
    /// How many smaller ones are not listed; empty: none.
    pub more: String,
    /// The firm's promise, where it makes one.
    pub promise: Option<PromiseBlock>,
    /// Photographs, as positions in the office's list.
    #[serde(skip)]
    pub photos: Vec<usize>,
}

/// One likely change order.
#[derive(Clone, Debug, Serialize)]
pub struct OrderBlock {
    /// The condition.
    pub name: String,
    /// How likely, in words.
    pub words: String,
    /// Its probability, 0 to 1.
    pub odds: f64,
    /// The clause.
    pub clause: String,
    /// Why it could not be seen, a sentence each.
    pub hidden: Vec<String>,
    /// What speaks for it and against it.
    pub evidence: Vec<String>,
    /// The agreement on price: name and figure.
    pub price: Vec<[String; 2]>,
    /// Who decides.
    pub caution: String,
}

/// What a promise to the household covers.
#[derive(Clone, Debug, Serialize)]
pub struct PromiseBlock {
    /// What is promised, in a sentence.
    pub says: String,
    /// The conditions it covers.
    pub covers: Vec<String>,
    /// Cap, cost and how often the cap is reached: name and figure.
    pub figures: Vec<[String; 2]>,
    /// What it does not cover, a sentence each.
    pub not: Vec<String>,
}
