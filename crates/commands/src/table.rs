//! The commands by name.

use std::path::Path;

use actions::{Desk, Error, Handed, Kept, Kind, Kit, SealOptions, Sealing};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use survey::{Digest, SurveyId};
use views::packet_shape::{HandedOverView, SealingView};
use views::walk_shape::LeftView;
use words::msg;

use crate::arguments::{
    Answer, Card, Demolition, Fit, HandOver, House, HouseholdSigns, Mark, MarkBack, MoveStop, NewPlace,
    Nothing, OfLink, OnSheet, OnePlace, Pair, Photograph, Remark, Renamed, Seal, Send, Set, Shown, Start,
    Tongue, Typed,
};
use crate::line::Post;

/// What a command works on.
pub(crate) struct Call<'a> {
    pub(crate) desk: &'a mut Desk,
    pub(crate) kept: &'a mut Kept,
    pub(crate) kit: Kit<'a>,
    /// The house that is being sealed, a file at each call.
    pub(crate) sealing: &'a mut Option<Sealing>,
    /// Packets on their way to the office.
    pub(crate) post: &'a Post,
    /// The catalog was named when the program was started.
    pub(crate) catalog_given: bool,
    /// Where people look for files.
    pub(crate) downloads: Option<&'a Path>,
    /// No once somebody else waits: long work is then broken off, and its answer is `null`.
    pub(crate) go_on: &'a mut dyn FnMut() -> bool,
}

impl Call<'_> {
    /// The desk, what is kept weighed, and whether the catalog was named: for what may change the catalog.
    fn walking(&mut self) -> (&mut Desk, &mut Kept, bool) {
        (self.desk, self.kept, self.catalog_given)
    }

    /// Notes what came of packets on their way, and takes the catalog that came along.
    fn settle(&mut self) -> Result<(), Error> {
        let (post, now) = (self.post, self.kit.now());
        post.settle(self.walking(), now)
    }

    fn office(&self) -> Result<Value, Error> {
        write(&actions::office(self.desk, self.catalog_given)?)
    }

    fn find(&self, survey: &str) -> Result<SurveyId, Error> {
        self.desk.find(survey)
    }

    /// The sealing of a house that goes on, taken out of its place: what fails is dropped.
    fn take_sealing(&mut self, survey: &str) -> Result<Sealing, Error> {
        let survey = self.find(survey)?;
        self.sealing.take_if(|sealing| sealing.survey() == survey).ok_or_else(|| {
            Error::new(Kind::Missing, msg!("error-no-sealing")).hint(msg!("error-no-sealing-hint"))
        })
    }

    fn photo(&self, survey: &str, start: &str) -> Result<(SurveyId, Digest), Error> {
        let survey = self.find(survey)?;
        Ok((survey, actions::photo_of(self.desk, survey, start)?))
    }
}

/// One thing the screens may ask.
pub struct Command {
    /// Its name.
    pub name: &'static str,
    /// True when it records something or keeps where the screens are.
    pub writes: bool,
    /// True where it takes long: it waits its turn and breaks nothing off, and is itself broken off by whatever waits
    /// that is quicker.
    pub(crate) long: bool,
    pub(crate) run: fn(&mut Call<'_>, &str, Value) -> Result<Value, Error>,
}

/// Every command.
pub const COMMANDS: &[Command] = &[
    reads("houses", |call, name, args| {
        let Nothing {} = read(name, args)?;
        // Between two houses the catalog may become another one; within one it does so only where somebody asks for it.
        call.settle()?;
        write(&actions::houses(call.desk)?)
    }),
    reads("house", |call, name, args| {
        let House { survey } = read(name, args)?;
        write(&actions::house(call.desk, call.find(&survey)?)?)
    }),
    reads("start-form", |call, name, args| {
        let Nothing {} = read(name, args)?;
        write(&actions::start_form(call.desk)?)
    }),
    writes("start-house", |call, name, args| {
        let start: Start = read(name, args)?;
        let survey = actions::start_house(call.desk, &start.house(), &mut call.kit)?;
        write(&actions::walk(call.desk, call.kept, survey, None, &mut call.kit)?)
    }),
    writes("walk", |call, name, args| {
        let Card { survey, key } = read(name, args)?;
        let survey = call.find(&survey)?;
        write(&actions::walk(call.desk, call.kept, survey, key.as_deref(), &mut call.kit)?)
    }),
    writes("answer", |call, name, args| {
        let answer: Answer = read(name, args)?;
        let survey = call.find(&answer.survey)?;
        let entered = answer.entered();
        write(&actions::answer(call.desk, call.kept, survey, (&answer.key, &entered), &mut call.kit)?)
    }),
    writes("remark", |call, name, args| {
        let Remark { survey, key, text } = read(name, args)?;
        let survey = call.find(&survey)?;
        write(&actions::remark(call.desk, call.kept, survey, (&key, &text), &mut call.kit)?)
    }),
    writes("undo", |call, name, args| {
        let House { survey } = read(name, args)?;
        let survey = call.find(&survey)?;
        write(&actions::take_back(call.desk, call.kept, survey, &mut call.kit)?)
    }),
    writes("add-place", |call, name, args| {
        let NewPlace { survey, station, label } = read(name, args)?;
        let survey = call.find(&survey)?;
        write(&actions::add_place_here(call.desk, call.kept, survey, (&station, &label), &mut call.kit)?)
    }),
    writes("name-place", |call, name, args| {
        let Renamed { survey, place, label } = read(name, args)?;
        let survey = call.find(&survey)?;
        write(&actions::name_place_here(call.desk, call.kept, survey, (&place, &label), &mut call.kit)?)
    }),
    writes("take-out-place", |call, name, args| {
        let OnePlace { survey, place } = read(name, args)?;
        let survey = call.find(&survey)?;
        write(&actions::take_out_place_here(call.desk, call.kept, survey, &place, &mut call.kit)?)
    }),
    writes("move-stop", |call, name, args| {
        let MoveStop { survey, place, toward } = read(name, args)?;
        let survey = call.find(&survey)?;
        write(&actions::move_stop_here(call.desk, call.kept, survey, (&place, toward.into()), &mut call.kit)?)
    }),
    reads("read-length", |call, name, args| {
        let Typed { key, text } = read(name, args)?;
        write(&actions::read_length(call.desk, &key, &text)?)
    }),
    weighs("look-next", |call, name, args| {
        let House { survey } = read(name, args)?;
        let survey = call.find(&survey)?;
        write(&actions::look_next(call.desk, call.kept, survey, call.go_on)?)
    }),
    writes("show-check", |call, name, args| {
        let shown: Shown = read(name, args)?;
        let survey = call.find(&shown.survey)?;
        let list = shown.list();
        write(&actions::show_check(call.desk, call.kept, survey, (&shown.check, &list), &mut call.kit)?)
    }),
    weighs("leaving", |call, name, args| {
        let House { survey } = read(name, args)?;
        let survey = call.find(&survey)?;
        write(&actions::leaving(call.desk, call.kept, survey, call.go_on)?)
    }),
    writes("assess", |call, name, args| {
        let House { survey } = read(name, args)?;
        let survey = call.find(&survey)?;
        actions::assess(call.desk, survey, &mut call.kit)?;
        write(&actions::house(call.desk, survey)?)
    }),
    reads("money-now", |call, name, args| {
        let House { survey } = read(name, args)?;
        let survey = call.find(&survey)?;
        write(&actions::money_now(call.desk, call.kept, survey, call.go_on)?)
    }),
    reads("odds-now", |call, name, args| {
        let House { survey } = read(name, args)?;
        let survey = call.find(&survey)?;
        write(&actions::odds_now(call.desk, call.kept, (survey, false), call.go_on, &call.kit)?)
    }),
    weighs("odds-why", |call, name, args| {
        let House { survey } = read(name, args)?;
        let survey = call.find(&survey)?;
        write(&actions::odds_now(call.desk, call.kept, (survey, true), call.go_on, &call.kit)?)
    }),
    writes("declare-demolition", |call, name, args| {
        let Demolition { survey, reason } = read(name, args)?;
        let survey = call.find(&survey)?;
        actions::declare_demolition(call.desk, survey, Some(&reason), &mut call.kit)?;
        write(&actions::walk(call.desk, call.kept, survey, None, &mut call.kit)?)
    }),
    writes("withdraw-demolition", |call, name, args| {
        let Demolition { survey, reason } = read(name, args)?;
        let survey = call.find(&survey)?;
        actions::withdraw_demolition(call.desk, survey, &reason, &mut call.kit)?;
        write(&actions::walk(call.desk, call.kept, survey, None, &mut call.kit)?)
    }),
    reads("fits", |call, name, args| {
        let House { survey } = read(name, args)?;
        write(&actions::fits(call.desk, call.find(&survey)?)?)
    }),
    reads("fit", |call, name, args| {
        let Fit { survey, key, typed } = read(name, args)?;
        write(&actions::fit(call.desk, call.find(&survey)?, &key, typed.as_deref())?)
    }),
    reads("photos", |call, name, args| {
        let Card { survey, key } = read(name, args)?;
        write(&actions::photos(call.desk, call.find(&survey)?, key.as_deref())?)
    }),
    reads("photo", |call, name, args| {
        let Photograph { survey, photo } = read(name, args)?;
        let (survey, photo) = call.photo(&survey, &photo)?;
        write(&actions::photo_marked(call.desk, survey, photo)?)
    }),
    writes("mark", |call, name, args| {
        let mark: Mark = read(name, args)?;
        let (survey, photo) = call.photo(&mark.survey, &mark.photo)?;
        actions::mark_photo(call.desk, survey, photo, actions::drawn(mark.drawn())?, &mut call.kit)?;
        write(&actions::photo_marked(call.desk, survey, photo)?)
    }),
    writes("take-mark-back", |call, name, args| {
        let MarkBack { survey, photo, mark } = read(name, args)?;
        let (survey, photo) = call.photo(&survey, &photo)?;
        let id = mark
            .parse()
            .map_err(|_| Error::new(Kind::Input, msg!("error-no-mark-id", text = short(&mark))))?;
        actions::take_mark_back(call.desk, survey, photo, id, &mut call.kit)?;
        write(&actions::photo_marked(call.desk, survey, photo)?)
    }),
    writes("measure-on-photo", |call, name, args| {
        let asked: OnSheet = read(name, args)?;
        let (survey, photo) = call.photo(&asked.survey, &asked.photo)?;
        let marks = actions::on_photo(&asked.sheet(), asked.lying, asked.corners, asked.ends, None)?;
        let key = asked.key.as_deref().map(|key| actions::about_card(call.desk, key));
        let done =
            actions::measure_on_photo(call.desk, survey, photo, &marks, key.as_deref(), &mut call.kit)?;
        write(&actions::measured_view(&done, call.desk.words()))
    }),
    reads("packets", |call, name, args| {
        let House { survey } = read(name, args)?;
        write(&actions::packets(call.desk, call.find(&survey)?, call.sealing.as_ref(), call.kit.now())?)
    }),
    writes("seal", |call, name, args| {
        let Seal { survey, household, signs } = read(name, args)?;
        let (survey, folder) = (call.find(&survey)?, call.desk.store().packets_dir()?);
        let options = SealOptions {
            household_in: household.map(Tongue::words),
            household_signs: signs,
            ..SealOptions::default()
        };
        let sealing = actions::begin_sealing(call.desk, survey, &folder, &options, &mut call.kit)?;
        write(&actions::going(call.sealing.insert(sealing), None))
    }),
    reads("household-page", |call, name, args| {
        let House { survey } = read(name, args)?;
        let sealing = call.take_sealing(&survey)?;
        write(&actions::household_page(call.sealing.insert(sealing))?)
    }),
    writes("household-signs", |call, name, args| {
        let HouseholdSigns { survey, name: signed, strokes } = read(name, args)?;
        let sealing = call.take_sealing(&survey)?;
        let sealing = call.sealing.insert(sealing);
        actions::sign_household(sealing, &signed, strokes, &call.kit)?;
        write(&actions::going(sealing, None))
    }),
    writes("seal-on", |call, name, args| {
        let House { survey } = read(name, args)?;
        let mut sealing = call.take_sealing(&survey)?;
        if sealing.step()? {
            return write(&actions::going(call.sealing.insert(sealing), None));
        }
        let (photos, all) = sealing.photos();
        let (survey, number) = (sealing.survey(), sealing.number());
        sealing.finish(call.desk)?;
        let packet = actions::packet_view(&actions::packet_of(call.desk, survey, number)?);
        write(&SealingView { photos_written: photos, photos: all, signs: false, packet: Some(packet) })
    }),
    writes("stop-sealing", |call, name, args| {
        let House { survey } = read(name, args)?;
        // Dropped, and with it what was written so far.
        drop(call.take_sealing(&survey)?);
        write(&actions::packets(call.desk, call.find(&survey)?, None, call.kit.now())?)
    }),
    writes("hand-over", |call, name, args| {
        let HandOver { survey, number, pages } = read(name, args)?;
        let folder = call.downloads.ok_or_else(|| {
            Error::new(Kind::Missing, msg!("error-no-downloads")).hint(msg!("error-no-downloads-hint"))
        })?;
        let what = if pages { Handed::Pages } else { Handed::Packet };
        let path = actions::hand_over(call.desk, call.find(&survey)?, (number, what), folder)?;
        write(&HandedOverView { path: path.display().to_string() })
    }),
    reads("office", |call, name, args| {
        let Nothing {} = read(name, args)?;
        call.settle()?;
        call.office()
    }),
    reads("read-link", |_, name, args| {
        let OfLink { link } = read(name, args)?;
        write(&actions::link_view(&actions::read_link(&link)?))
    }),
    writes("pair", |call, name, args| {
        let Pair { link, name: called } = read(name, args)?;
        let desk = (&mut *call.desk, &mut *call.kept, call.catalog_given);
        crate::line::pair(desk, &link, &called, &mut call.kit)?;
        call.office()
    }),
    writes("fetch-catalog", |call, name, args| {
        let Nothing {} = read(name, args)?;
        let now = call.kit.now();
        crate::line::fetch(call.walking(), now)?;
        call.office()
    }),
    writes("unpair", |call, name, args| {
        let Nothing {} = read(name, args)?;
        call.post.stop();
        actions::unpair(call.desk)?;
        call.office()
    }),
    writes("send", |call, name, args| {
        let Send { survey, packet } = read(name, args)?;
        call.settle()?;
        let (survey, now) = (call.find(&survey)?, call.kit.now());
        if let Some(outgoing) = actions::outgoing(call.desk, survey, &packet, now)? {
            call.post.begin(outgoing, actions::published_here(call.desk), call.desk.words())?;
        }
        write(&actions::sendings(call.desk, &call.post.live())?)
    }),
    reads("sending", |call, name, args| {
        let Nothing {} = read(name, args)?;
        call.settle()?;
        write(&actions::sendings(call.desk, &call.post.live())?)
    }),
    reads("screens", |call, name, args| {
        let Nothing {} = read(name, args)?;
        write(&actions::screens(call.desk)?)
    }),
    reads("settings", |call, name, args| {
        let Nothing {} = read(name, args)?;
        write(&actions::settings(call.desk, call.catalog_given, call.kit.now())?)
    }),
    writes("set", |call, name, args| {
        let Set { setting, value } = read(name, args)?;
        actions::set(call.desk, call.kept, &setting, &value, call.catalog_given)?;
        write(&actions::settings(call.desk, call.catalog_given, call.kit.now())?)
    }),
    reads("left", |call, name, args| {
        let Nothing {} = read(name, args)?;
        let survey = actions::left_house(call.desk)?.map(|survey| survey.to_string());
        write(&LeftView { survey })
    }),
    writes("leave-house", |call, name, args| {
        let Nothing {} = read(name, args)?;
        write(&actions::leave_house(call.desk)?)
    }),
];

type Run = fn(&mut Call<'_>, &str, Value) -> Result<Value, Error>;

const fn reads(name: &'static str, run: Run) -> Command {
    Command { name, writes: false, long: false, run }
}

const fn weighs(name: &'static str, run: Run) -> Command {
    Command { name, writes: false, long: true, run }
}

const fn writes(name: &'static str, run: Run) -> Command {
    Command { name, writes: true, long: false, run }
}

/// The command of a name.
pub(crate) fn find(name: &str) -> Result<&'static Command, Error> {
    COMMANDS
        .iter()
        .find(|command| command.name == name)
        .ok_or_else(|| Error::new(Kind::Missing, msg!("error-no-command", command = short(name))))
}

fn read<T: DeserializeOwned>(name: &str, args: Value) -> Result<T, Error> {
    serde_json::from_value(args).map_err(|e| {
        Error::new(Kind::Input, msg!("error-command-args", command = name, said = short(&e.to_string())))
    })
}

pub(crate) fn write<T: Serialize>(value: &T) -> Result<Value, Error> {
    serde_json::to_value(value).map_err(|e| {
        Error::new(Kind::Internal, msg!("error-command-args", command = "", said = e.to_string()))
    })
}

/// What came from outside, short enough to be said.
fn short(text: &str) -> String {
    text.chars().take(120).collect()
}
