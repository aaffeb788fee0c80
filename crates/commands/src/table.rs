//! The commands by name.

use actions::{Desk, Error, Kept, Kind, Kit};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use survey::{Digest, SurveyId};
use views::walk_shape::LeftView;
use words::msg;

use crate::arguments::{
    Answer, Card, House, Mark, MarkBack, NewPlace, Nothing, OnSheet, Photograph, Remark, Shown, Start, Typed,
};

/// What a command works on.
pub(crate) struct Call<'a> {
    pub(crate) desk: &'a mut Desk,
    pub(crate) kept: &'a mut Kept,
    pub(crate) kit: Kit<'a>,
    /// No once somebody else waits: long work is then broken off, and its answer is `null`.
    pub(crate) go_on: &'a mut dyn FnMut() -> bool,
}

impl Call<'_> {
    fn find(&self, survey: &str) -> Result<SurveyId, Error> {
        self.desk.find(survey)
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
    pub(crate) run: fn(&mut Call<'_>, &str, Value) -> Result<Value, Error>,
}

/// Every command.
pub const COMMANDS: &[Command] = &[
    reads("houses", |call, name, args| {
        let Nothing {} = read(name, args)?;
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
    reads("read-length", |call, name, args| {
        let Typed { key, text } = read(name, args)?;
        write(&actions::read_length(call.desk, &key, &text)?)
    }),
    reads("look-next", |call, name, args| {
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
    reads("leaving", |call, name, args| {
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
        let key = asked.key.as_deref();
        let done = actions::measure_on_photo(call.desk, survey, photo, &marks, key, &mut call.kit)?;
        write(&actions::measured_view(&done, call.desk.words()))
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
    Command { name, writes: false, run }
}

const fn writes(name: &'static str, run: Run) -> Command {
    Command { name, writes: true, run }
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
