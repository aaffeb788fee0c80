//! What can be typed.

use std::path::PathBuf;

use clap::{Args as ClapArgs, Parser, Subcommand, ValueEnum};
use words::Language;

mod demolition;
mod keys;
mod line;
mod office;
mod reckon;
mod record;

pub use demolition::*;
pub use keys::*;
pub use line::*;
pub use office::*;
pub use reckon::*;
pub use record::*;

const AFTER: &str = "Exit codes: 0 done · 1 a fault of the program or the machine · 2 what was given cannot be taken · \
3 what was named is not there · 4 it clashes with what stands · 5 something recorded is damaged";

/// A survey of what lies under the lath, before the price is fixed.
#[derive(Parser, Debug)]
#[command(name = "underlath", version, after_help = AFTER, max_term_width = 100)]
pub struct Args {
    /// Folder of this device's records [default: $UNDERLATH_HOME or ~/.local/share/underlath]
    #[arg(long, global = true, value_name = "DIR")]
    pub home: Option<PathBuf>,
    /// Folder of the office's records [default: $UNDERLATH_OFFICE or ~/.local/share/underlath-office]
    #[arg(long, global = true, value_name = "DIR")]
    pub office: Option<PathBuf>,
    /// Folder of a catalog to use instead of the one built in
    #[arg(long, global = true, value_name = "DIR")]
    pub catalog: Option<PathBuf>,
    /// The firm's overlay, a folder or one file [default: $UNDERLATH_OVERLAY or “overlay” in the home, if it is there]
    #[arg(long, global = true, value_name = "PATH")]
    pub overlay: Option<PathBuf>,
    /// Who is acting [default: $USER]
    #[arg(long, global = true, value_name = "NAME")]
    pub by: Option<String>,
    /// Answer in JSON
    #[arg(long, global = true)]
    pub json: bool,
    /// Language to answer in: en or es [default: the language of the terminal]
    #[arg(long, global = true, value_name = "LANGUAGE", value_parser = language)]
    pub language: Option<Language>,
    /// What to do
    #[command(subcommand)]
    pub verb: Verb,
}

/// The verbs.
#[derive(Subcommand, Debug)]
pub enum Verb {
    /// Open a survey of a house
    New(New),
    /// Record the answer to an item; answering again corrects
    Record(Record),
    /// Add one more soffit, wall to open or bath; name one; take one out; without more, list them
    Place(Place),
    /// Show the order in which the house is walked, or move a stop of it
    Order(Order),
    /// Make the sheet that the household fills in before the visit
    Sheet(Sheet),
    /// Take in the answers that came back from a household's sheet
    SheetAnswers(SheetAnswers),
    /// Record a remark in words
    Note(Note),
    /// Take back what this device did last: an answer, a place, a remark or a photograph; all of it stays in the log
    Undo(OneHouse),
    /// Take a photograph in; the verbs below work on files, or on photographs of a house
    Photo(Photo),
    /// Show the houses, or one house as it stands
    Show(House),
    /// Assess a house and freeze the result
    Assess(OneHouse),
    /// Say what to ask and what to look at next
    Next(Next),
    /// Say what is amiss before the house is left: contradictions, gaps, what is still worth asking
    Leave(OneHouse),
    /// Price a promise: some concealed conditions will not change the price, up to a cap
    Promise(Promise),
    /// Say what would be if: an answer, the result of a check, a condition priced in; nothing is recorded
    Suppose(Suppose),
    /// Seal a house into a packet
    Seal(Seal),
    /// Declare demolition: the walk is over, and what is seen from now on is a finding
    Demolition(Demolition),
    /// Check a packet byte by byte, and say whose seal it bears
    Verify(Verify),
    /// Receive a packet at the office
    Receive(Receive),
    /// Take in the office's receipt for a packet of this device
    Receipt(ReceiptFile),
    /// Pair this device with its office by the link an owner there made
    Pair(Pair),
    /// Send a packet of a house to the office this device is paired with
    Send(Send),
    /// Keys that seal: of this device, and of the office that vouches for it
    Keys(OfKeys),
    /// Enter what was found after demolition
    Finding(Finding),
    /// Open the office to browsers of the network, over TLS; the verbs below back it up and restore it
    Office(Office),
    /// Hold the forecast against what was found
    Compare(OneHouse),
    /// Tell the track record: how often forecasts came true over all houses that were opened
    Track(Track),
    /// Say what the opened houses teach about the catalog's numbers; take lines of it over
    Learn(Learn),
    /// Take in what another tablet recorded: its packet, or its log as lines of JSON
    Merge(PacketFile),
    /// Check the records of this device
    Check(Check),
    /// Save what is readable in damaged records as lines of JSON
    Rescue(Rescue),
    /// Run the whole job on the sample houses
    Demo(Demo),
    /// Draw invented houses from the catalog, with all that is hidden in them
    Simulate(Simulate),
    /// Work a trade calculation out on paper: sink drain, gas run, panel load, openings…
    Calc(Calc),
    /// Open the screens in a browser of this machine
    Field(Field),
    /// For a firm that edits the catalog
    Catalog(OfCatalog),
    /// Answer bare computations: JSON in, JSON out
    Reckon(Reckon),
    /// List the texts of the catalog and those not yet said in a language
    Words(WordList),
}

/// Open a survey.
#[derive(ClapArgs, Debug)]
pub struct New {
    /// Name of the house for people
    pub label: String,
    /// Contract price in dollars
    #[arg(long, value_name = "DOLLARS")]
    pub contract: Option<i64>,
    /// Days the contract allows
    #[arg(long, value_name = "DAYS")]
    pub days: Option<u32>,
}

/// Record an answer.
#[derive(ClapArgs, Debug)]
pub struct Record {
    /// House: its label, or the start of its id
    pub house: String,
    /// Item of the walk
    pub item: String,
    /// Place, where the house has several: its id or its name
    #[arg(long, value_name = "PLACE")]
    pub place: Option<String>,
    /// The answer; several words for several ticks; "can't tell" is one
    #[arg(allow_negative_numbers = true)]
    pub answer: Vec<String>,
    /// It could not be reached, because of this
    #[arg(long, value_name = "BECAUSE", conflicts_with = "answer")]
    pub could_not_reach: Option<String>,
    /// Tolerance of a length: plus or minus this
    #[arg(long, value_name = "LENGTH")]
    pub tolerance: Option<String>,
    /// Photograph file that shows it; may be repeated
    #[arg(long = "photo", value_name = "FILE")]
    pub photos: Vec<PathBuf>,
    /// Why an earlier answer is corrected, or a remark
    #[arg(long, value_name = "WORDS")]
    pub reason: Option<String>,
    /// A value outside the plausible range is meant
    #[arg(long)]
    pub sure: bool,
}

/// One of several places.
#[derive(ClapArgs, Debug)]
pub struct Place {
    /// House: its label, or the start of its id
    pub house: String,
    /// What there is one more of: bulkhead, walls, bath. With --label or --remove: the place, by id or name
    pub which: Option<String>,
    /// Name of the place to add, for people: “Soffit over the refrigerator”
    #[arg(value_name = "NAME")]
    pub name: Option<String>,
    /// Give the place this name
    #[arg(long, value_name = "NAME", conflicts_with_all = ["name", "remove"])]
    pub label: Option<String>,
    /// Take the place out of walk and odds; what was recorded there is kept
    #[arg(long, conflicts_with = "name")]
    pub remove: bool,
    /// Why it is taken out
    #[arg(long, value_name = "WORDS", requires = "remove")]
    pub reason: Option<String>,
}

/// The order of the walk.
#[derive(ClapArgs, Debug)]
#[command(group(clap::ArgGroup::new("toward").args(["earlier", "later", "before", "after"])))]
pub struct Order {
    /// House: its label, or the start of its id
    pub house: String,
    /// The stop to move: a station, or a place by id or name
    #[arg(requires = "toward")]
    pub stop: Option<String>,
    /// Walk it before the stop before it
    #[arg(long, requires = "stop")]
    pub earlier: bool,
    /// Walk it after the stop after it
    #[arg(long, requires = "stop")]
    pub later: bool,
    /// Walk it just before this stop
    #[arg(long, value_name = "STOP", requires = "stop")]
    pub before: Option<String>,
    /// Walk it just after this stop
    #[arg(long, value_name = "STOP", requires = "stop")]
    pub after: Option<String>,
    /// Take the catalog's order up again
    #[arg(long, conflicts_with = "stop")]
    pub as_listed: bool,
}

/// Make a household's sheet.
#[derive(ClapArgs, Debug)]
pub struct Sheet {
    /// House: its label, or the start of its id
    pub house: String,
    /// File the page is written to; an older sheet there is written over
    #[arg(long, value_name = "FILE")]
    pub into: PathBuf,
    /// The firm's name
    #[arg(long, value_name = "NAME")]
    pub firm: Option<String>,
}

/// Take a household's answers in. Who says so is "household", with the name on the sheet, unless --by says otherwise.
#[derive(ClapArgs, Debug)]
pub struct SheetAnswers {
    /// House: its label, or the start of its id
    pub house: String,
    /// The file that came back
    pub file: PathBuf,
}

/// Record a remark.
#[derive(ClapArgs, Debug)]
pub struct Note {
    /// House: its label, or the start of its id
    pub house: String,
    /// The remark
    pub words: String,
    /// Item it belongs to
    #[arg(long, value_name = "ITEM")]
    pub item: Option<String>,
    /// Place it belongs to
    #[arg(long, value_name = "PLACE")]
    pub place: Option<String>,
}

/// Take a photograph in, or work on photograph files that belong to no house.
#[derive(ClapArgs, Debug)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
pub struct Photo {
    /// House: its label, or the start of its id
    #[arg(required = true)]
    pub house: Option<String>,
    /// The file
    #[arg(required = true)]
    pub file: Option<PathBuf>,
    /// Item it belongs to
    #[arg(long, value_name = "ITEM")]
    pub item: Option<String>,
    /// Place it belongs to
    #[arg(long, value_name = "PLACE")]
    pub place: Option<String>,
    /// Words to it
    #[arg(long, value_name = "WORDS")]
    pub caption: Option<String>,
    /// Work on files instead
    #[command(subcommand)]
    pub what: Option<PhotoVerb>,
}

/// What is done with photograph files that are not taken in.
#[derive(Subcommand, Debug)]
pub enum PhotoVerb {
    /// Say what photograph files tell of themselves; nothing is recorded
    Facts(PhotoFacts),
    /// Copy photographs for somebody outside the firm, without location and serial numbers
    Copy(PhotoCopy),
    /// Make a mark on a photograph of a house, or take one back; the original stays as it is
    Mark(PhotoMark),
    /// List the marks on a photograph of a house, or draw them over a copy
    Marks(PhotoMarks),
    /// Measure on a photograph of a house, beside a sheet of paper that lies in the same plane
    Measure(PhotoMeasure),
}

/// A mark. Points are X,Y in pixels of the upright picture, from its top left corner.
#[derive(ClapArgs, Debug)]
#[command(group = clap::ArgGroup::new("mark").required(true))]
pub struct PhotoMark {
    /// House: its label, or the start of its id
    pub house: String,
    /// Photograph: the start of its digest
    pub photo: String,
    /// An arrow to the second point
    #[arg(long, num_args = 2, value_name = "X,Y", group = "mark", allow_negative_numbers = true)]
    pub arrow: Vec<String>,
    /// A circle around the first point through the second
    #[arg(long, num_args = 2, value_name = "X,Y", group = "mark", allow_negative_numbers = true)]
    pub ring: Vec<String>,
    /// Words, with --at
    #[arg(long, value_name = "WORDS", group = "mark", requires = "at")]
    pub words: Option<String>,
    /// Where the words begin
    #[arg(long, value_name = "X,Y", allow_negative_numbers = true)]
    pub at: Option<String>,
    /// A line between two points, with --length
    #[arg(
        long,
        num_args = 2,
        value_name = "X,Y",
        group = "mark",
        requires = "length",
        allow_negative_numbers = true
    )]
    pub dimension: Vec<String>,
    /// The length of the line
    #[arg(long, value_name = "LENGTH")]
    pub length: Option<String>,
    /// Its tolerance: plus or minus this
    #[arg(long, value_name = "LENGTH", requires = "dimension")]
    pub tolerance: Option<String>,
    /// Take back the mark with this id
    #[arg(long, value_name = "MARK", group = "mark")]
    pub take_back: Option<String>,
}

/// Marks on a photograph.
#[derive(ClapArgs, Debug)]
pub struct PhotoMarks {
    /// House: its label, or the start of its id
    pub house: String,
    /// Photograph: the start of its digest
    pub photo: String,
    /// Write a small copy with the marks drawn over it: as SVG, or burnt into a JPEG where FILE ends in .jpg
    #[arg(long, value_name = "FILE")]
    pub drawn: Option<PathBuf>,
}

/// A measurement on a photograph. Points are X,Y in pixels of the upright picture, from its top left corner.
#[derive(ClapArgs, Debug)]
pub struct PhotoMeasure {
    /// House: its label, or the start of its id
    pub house: String,
    /// Photograph: the start of its digest
    pub photo: String,
    /// What lies in the plane: letter, a4, or WIDTHxHEIGHT
    #[arg(long, value_name = "PAPER", default_value = "letter")]
    pub paper: String,
    /// Its four corners one after the other around it; its width is from the first to the second
    #[arg(long, required = true, num_args = 4, value_name = "X,Y", allow_negative_numbers = true)]
    pub corners: Vec<String>,
    /// The ends of what is measured
    #[arg(long, required = true, num_args = 2, value_name = "X,Y", allow_negative_numbers = true)]
    pub ends: Vec<String>,
    /// How far the ends may stand before or behind the paper: plus or minus this
    #[arg(long, value_name = "LENGTH")]
    pub off_plane: Option<String>,
    /// Record it as the answer to this item, with the photograph as its evidence
    #[arg(long, value_name = "ITEM")]
    pub item: Option<String>,
    /// Place, where the house has several: its id or its name
    #[arg(long, value_name = "PLACE", requires = "item")]
    pub place: Option<String>,
}

/// Files to be read.
#[derive(ClapArgs, Debug)]
pub struct PhotoFacts {
    /// Photograph files
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
}

/// Files to be copied clean, or photographs of a house with their marks.
#[derive(ClapArgs, Debug)]
pub struct PhotoCopy {
    /// Photograph files; with --marked, starts of digests, and none for every photograph that bears marks
    #[arg(required_unless_present = "marked", value_name = "FILE")]
    pub files: Vec<PathBuf>,
    /// Copy photographs of this house instead, upright, 1600 pixels long, with their marks burnt in
    #[arg(long, value_name = "HOUSE")]
    pub marked: Option<String>,
    /// Folder the copies go to
    #[arg(long, value_name = "DIR")]
    pub into: PathBuf,
}

/// What is next.
#[derive(ClapArgs, Debug)]
pub struct Next {
    /// House: its label, or the start of its id
    pub house: String,
    /// Station or place where the walk goes on
    #[arg(long, value_name = "STATION")]
    pub from: Option<String>,
    /// How many questions to show
    #[arg(long, value_name = "N", default_value_t = 5)]
    pub most: usize,
}

/// A house, or all.
#[derive(ClapArgs, Debug)]
pub struct House {
    /// House: its label, or the start of its id
    pub house: Option<String>,
}

/// A house.
#[derive(ClapArgs, Debug)]
pub struct OneHouse {
    /// House: its label, or the start of its id
    pub house: String,
}

/// A promise.
#[derive(ClapArgs, Debug)]
pub struct Promise {
    /// House: its label, or the start of its id
    pub house: String,
    /// Conditions that will not change the price, parted by commas
    #[arg(long, required = true, value_delimiter = ',', value_name = "KEY,KEY")]
    pub cover: Vec<String>,
    /// The most the promise pays, in dollars
    #[arg(long, value_name = "DOLLARS")]
    pub cap: i64,
    /// Say which further checks would bring the premium under this, in dollars
    #[arg(long, value_name = "DOLLARS")]
    pub under: Option<i64>,
    /// Part of what the ninetieth percentile lies above the mean that is charged on top of the mean [default: the catalog's]
    #[arg(long, value_name = "0 TO 5")]
    pub loading: Option<f64>,
    /// Chance, at least, with which checks must bring the premium there
    #[arg(long, default_value_t = 0.5, value_name = "0 TO 1")]
    pub chance: f64,
}

/// What is supposed.
#[derive(ClapArgs, Debug)]
pub struct Suppose {
    /// House: its label, or the start of its id
    pub house: String,
    /// The base price held this condition; may be repeated
    #[arg(long, value_name = "KEY")]
    pub priced_in: Vec<String>,
    /// A check showed a condition, or did not; may be repeated
    #[arg(long, num_args = 3, value_names = ["CHECK", "KEY", "yes|no"])]
    pub shows: Vec<String>,
    /// A check were made on a condition: what it would be worth, and both results
    #[arg(long, num_args = 2, value_names = ["CHECK", "KEY"])]
    pub look: Vec<String>,
    /// An item were answered so; several ticks parted by commas; may be repeated
    #[arg(long, num_args = 2, value_names = ["ITEM", "VALUE"], allow_negative_numbers = true)]
    pub answer: Vec<String>,
}

/// Seal.
#[derive(ClapArgs, Debug)]
pub struct Seal {
    /// House: its label, or the start of its id
    pub house: String,
    /// Folder the packet is written to
    #[arg(long, default_value = ".", value_name = "DIR")]
    pub into: PathBuf,
    /// The firm's name
    #[arg(long, value_name = "NAME")]
    pub firm: Option<String>,
    /// Line under the firm's name on the pages, as street and telephone
    #[arg(long, value_name = "LINE")]
    pub address: Option<String>,
    /// Language of the pages, if it is not that of the command: en or es
    #[arg(long, value_name = "LANGUAGE", value_parser = language)]
    pub pages: Option<Language>,
    /// Language of the household's pages, if it reads another: en or es
    #[arg(long, value_name = "LANGUAGE", value_parser = language)]
    pub household: Option<Language>,
    /// Folder of the firm's own templates of the pages [default: “templates” in the home, if it is there]
    #[arg(long, value_name = "DIR")]
    pub templates: Option<PathBuf>,
    /// Conditions the firm promises will not change the price, as the change-order pages then say
    #[arg(long, value_delimiter = ',', value_name = "KEYS", requires = "cap")]
    pub promise: Vec<String>,
    /// Cap of that promise, dollars
    #[arg(long, value_name = "DOLLARS", requires = "promise")]
    pub cap: Option<i64>,
    /// Show the household its page and have it sign with its name before the packet is written
    #[arg(long)]
    pub household_signs: bool,
}

/// Words.
#[derive(ClapArgs, Debug)]
pub struct WordList {
    /// What to list
    pub list: WordsAsked,
}

/// Which words.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum WordsAsked {
    /// Texts of the catalog that this language has no words for
    Missing,
    /// Every text of the catalog with its id
    All,
}

/// A language by its tag; `qps` is the made-up one that shows what nobody translated.
fn language(tag: &str) -> Result<Language, String> {
    Language::of_tag(tag).ok_or_else(|| "en, es".to_owned())
}

/// A packet to verify. Works without a network, with the files alone.
#[derive(ClapArgs, Debug)]
pub struct Verify {
    /// The packet file
    pub file: PathBuf,
    /// The firm's public keys, as its office wrote them out
    #[arg(long, value_name = "FILE")]
    pub firm: Option<PathBuf>,
    /// The office's receipt for the packet
    #[arg(long, value_name = "FILE", requires = "firm")]
    pub receipt: Option<PathBuf>,
    /// The office's revocation list
    #[arg(long, value_name = "FILE", requires = "firm")]
    pub revoked: Option<PathBuf>,
    /// File the household's drawn signature is written to, as SVG
    #[arg(long, value_name = "FILE")]
    pub signature: Option<PathBuf>,
}

/// A receipt.
#[derive(ClapArgs, Debug)]
pub struct ReceiptFile {
    /// The receipt file
    pub file: PathBuf,
}

/// A packet.
#[derive(ClapArgs, Debug)]
pub struct PacketFile {
    /// The packet file
    pub file: PathBuf,
}

/// A packet for the office.
#[derive(ClapArgs, Debug)]
pub struct Receive {
    /// The packet file
    pub file: PathBuf,
    /// Take it though no certificate vouches for its key; ask whoever brought it that it is theirs
    #[arg(long)]
    pub uncertified: bool,
}

/// What was found.
#[derive(Clone, Copy, Debug, ValueEnum)]
#[allow(clippy::enum_variant_names, reason = "these are the words that are typed")]
pub enum Found {
    /// It was there
    Found,
    /// The place was opened and it was not there
    NotThere,
    /// The place was never opened
    NotOpened,
}

/// Who bore a cost.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum PaidBy {
    /// The firm
    Absorbed,
    /// An allowance of the contract
    Allowance,
    /// The client, by a change order
    ChangeOrder,
}

/// Enter a finding.
#[derive(ClapArgs, Debug)]
pub struct Finding {
    /// House: its label, or the start of its id
    pub house: String,
    /// Condition of the catalog; at one of several places CONDITION@PLACE, as “assess” names it
    pub condition: String,
    /// What was found
    pub found: Found,
    /// What the work cost, in dollars
    #[arg(long, default_value_t = 0, value_name = "DOLLARS")]
    pub cost: i64,
    /// Working days it added
    #[arg(long, default_value_t = 0.0, value_name = "DAYS")]
    pub days: f64,
    /// It stood in the contract price
    #[arg(long)]
    pub priced_before_signing: bool,
    /// Who bore the cost, where it stood in no price
    #[arg(long, value_name = "WHO")]
    pub paid_by: Option<PaidBy>,
    /// Words
    #[arg(long, default_value = "", value_name = "WORDS")]
    pub note: String,
    /// Photograph of it
    #[arg(long, value_name = "FILE")]
    pub photo: Option<PathBuf>,
}

/// Check.
#[derive(ClapArgs, Debug)]
pub struct Check {
    /// Make the readable tables anew from the log first
    #[arg(long)]
    pub mend: bool,
}

/// Rescue.
#[derive(ClapArgs, Debug)]
pub struct Rescue {
    /// File the readable entries are written to
    pub to: PathBuf,
}

/// Demo.
#[derive(ClapArgs, Debug)]
pub struct Demo {
    /// Folder of the sample surveys
    #[arg(long, default_value = "sample-surveys", value_name = "DIR")]
    pub samples: PathBuf,
    /// Folder everything is made in; what an earlier demo made there is made anew
    #[arg(long, default_value = "demo-made", value_name = "DIR")]
    pub into: PathBuf,
}

/// Invented houses.
#[derive(ClapArgs, Debug)]
pub struct Simulate {
    /// How many houses
    #[arg(long, default_value_t = 10, value_name = "N")]
    pub houses: u64,
    /// Seed: the same one gives the same houses
    #[arg(long, default_value_t = 1, value_name = "S")]
    pub seed: u64,
    /// What is true of the houses: the folder of another catalog, or a file of factors on odds and likelihood ratios
    #[arg(long, value_name = "DIR or FILE")]
    pub truth: Option<PathBuf>,
    /// Make the truth disagree with the catalog by random factors of at most this on odds and likelihood ratios
    #[arg(long, value_name = "FACTOR")]
    pub wrong_by: Option<f64>,
    /// File of habits (plans, missing answers, opening) to use instead of those built in
    #[arg(long, value_name = "FILE")]
    pub habits: Option<PathBuf>,
    /// Folder that gets a device with the houses on it; what an earlier simulation made there is made anew
    #[arg(long, value_name = "DIR")]
    pub into: Option<PathBuf>,
    /// Also seal every house, and give packets and findings to an office in that folder; takes a while
    #[arg(long, requires = "into")]
    pub sealed: bool,
    /// Also draw this many photographs for every house, to load a device with; there is nothing to be seen in them
    #[arg(long, default_value_t = 0, requires = "into", value_name = "N")]
    pub photographs: u64,
}

/// A calculation.
#[derive(ClapArgs, Debug)]
#[command(disable_help_flag = true)]
pub struct Calc {
    /// Which calculation; without it they are listed
    #[arg(allow_hyphen_values = true)]
    pub word: Option<String>,
    /// Its answers, as `--name value`; `--help` lists the names. Without any it asks
    #[arg(trailing_var_arg = true, allow_hyphen_values = true, value_name = "ANSWERS")]
    pub answers: Vec<String>,
}

/// The screens in a browser.
#[derive(ClapArgs, Debug)]
pub struct Field {
    /// Port of this machine's loopback address; 0 takes one that is free
    #[arg(long, value_name = "N", default_value_t = 0)]
    pub port: u16,
}

/// What a firm does with its catalog.
#[derive(ClapArgs, Debug)]
pub struct OfCatalog {
    /// What to do
    #[command(subcommand)]
    pub what: CatalogVerb,
}

/// The verbs of the catalog.
#[derive(Subcommand, Debug)]
pub enum CatalogVerb {
    /// Propose the one factor on base odds: by a wanted share, or by the firm's reviewed jobs
    Calibrate(Calibrate),
    /// Check the catalog and the firm's overlay: every fault with file and line
    Check(CatalogCheck),
    /// Show a thing of the catalog key by key: each number's basis and weight, and who wrote it
    Show(CatalogShow),
    /// Say what the overlay changes, adds and leaves out
    Diff,
    /// Write an overlay to begin with: its examples are remarks until they are made real
    NewOverlay(NewOverlay),
    /// Publish the firm's numbers, at the office, as a signed version that its tablets take
    Publish(CatalogPublish),
    /// Ask the office this device is paired with for the catalog it published last
    Fetch,
}

/// A version of the catalog.
#[derive(ClapArgs, Debug)]
pub struct CatalogPublish {
    /// Publish it although nothing is new, so that its number is higher: for an office restored from a backup
    #[arg(long)]
    pub again: bool,
}

/// A check of catalog and overlay.
#[derive(ClapArgs, Debug)]
pub struct CatalogCheck {
    /// Overlay to check, a folder or one file [default: the one in use]
    pub path: Option<PathBuf>,
}

/// One thing of the catalog.
#[derive(ClapArgs, Debug)]
pub struct CatalogShow {
    /// Kind of thing: condition, clue, check, item, setting…
    pub kind: String,
    /// Its id; without it the ids of the kind are listed
    pub id: Option<String>,
}

/// A first overlay.
#[derive(ClapArgs, Debug)]
pub struct NewOverlay {
    /// Folder it is written to
    pub dir: PathBuf,
}

/// A factor to be found.
#[derive(ClapArgs, Debug)]
#[group(required = true, multiple = false)]
pub struct Calibrate {
    /// So that a typical kitchen's expected unknown is this share of the mid-range kitchen, in percent
    #[arg(long, value_name = "PERCENT")]
    pub share: Option<f64>,
    /// So that the office's reviewed jobs came out as expected
    #[arg(long)]
    pub from_jobs: bool,
}
