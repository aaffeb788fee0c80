//! What the office's screens may ask of people, by name: one table with the least role of each.

use std::net::IpAddr;

use serde::Deserialize;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};
use survey::{Stamp, SurveyId};

use super::set_up::First;
use super::staff::Newcomer;
use super::{Bits, IDLE_MS, People, PeopleError, Person, PersonId, Role, Who};

/// Lines of the audit log in one answer.
const AUDIT_LINES: u32 = 100;

/// One question, with what surrounds it.
pub struct Call<'c> {
    /// The people of the office.
    pub people: &'c People,
    /// The secret of the session, where the browser has one.
    pub session: Option<&'c str>,
    /// Where it comes from.
    pub from: IpAddr,
    /// Now.
    pub now: Stamp,
    /// Random bits.
    pub bits: Bits<'c>,
}

/// What the browser does with the secret of its session.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cookie {
    /// Nothing.
    Keep,
    /// Keeps this one from now on.
    Set(String),
    /// Forgets it.
    Forget,
}

/// An answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answered {
    /// What the screens are told.
    pub value: Value,
    /// What becomes of the session.
    pub cookie: Cookie,
}

type Run = fn(&mut Call<'_>, Option<&Who>, Args<'_>) -> Result<Answered, PeopleError>;

/// Name, least role (none: nobody need be signed in), what is done.
static TABLE: [(&str, Option<Role>, Run); 23] = [
    ("session", None, session),
    ("set-up", None, set_up),
    ("sign-in", None, sign_in),
    ("sign-out", Some(Role::Estimator), sign_out),
    ("change-password", Some(Role::Estimator), change_password),
    ("begin-second-factor", Some(Role::Estimator), begin_second),
    ("confirm-second-factor", Some(Role::Estimator), confirm_second),
    ("drop-second-factor", Some(Role::Estimator), drop_second),
    ("own-sessions", Some(Role::Estimator), own_sessions),
    ("end-own-sessions", Some(Role::Estimator), end_own),
    ("people", Some(Role::Owner), people),
    ("add-person", Some(Role::Owner), add_person),
    ("set-role", Some(Role::Owner), set_role),
    ("unlock", Some(Role::Owner), unlock),
    ("end-sessions", Some(Role::Owner), end_sessions),
    ("lift-second-factor", Some(Role::Owner), lift_second),
    ("demand-second-factor", Some(Role::Owner), demand_second),
    ("remove-person", Some(Role::Owner), remove_person),
    ("audit", Some(Role::Owner), audit),
    ("who-sees", Some(Role::Owner), who_sees),
    ("close-house", Some(Role::Owner), close_house),
    ("let-see", Some(Role::Owner), let_see),
    ("open-house", Some(Role::Owner), open_house),
];

/// What whoever is signed in may do, even by the password an owner chose for them.
pub(super) const OWN: [&str; 2] = ["sign-out", "change-password"];
/// What whoever is signed in by their own password may do, even where a second factor is wanted of them.
pub(super) const SECOND: [&str; 2] = ["begin-second-factor", "confirm-second-factor"];

impl Call<'_> {
    /// Names and least roles of all commands about people.
    pub fn commands() -> impl Iterator<Item = (&'static str, Option<Role>)> {
        TABLE.iter().map(|(name, least, _)| (*name, *least))
    }

    /// Answers a command about people; none where it is not one of these.
    ///
    /// # Errors
    /// Why it is refused.
    pub fn ask(&mut self, name: &str, args: Value) -> Option<Result<Answered, PeopleError>> {
        let (name, least, run) = TABLE.iter().find(|(known, ..)| *known == name)?;
        let who = match least {
            Some(_) if OWN.contains(name) => self.people.who(self.session, self.now).map(Some),
            Some(_) if SECOND.contains(name) => match self.people.who(self.session, self.now) {
                Ok(who) if who.first_password => Err(PeopleError::FirstPassword),
                who => who.map(Some),
            },
            Some(least) => self.people.allow(self.session, *least, (name, self.from), self.now).map(Some),
            None => match self.people.who(self.session, self.now) {
                Err(PeopleError::NotSignedIn | PeopleError::TooQuick(_)) => Ok(None),
                who => who.map(Some),
            },
        };
        Some(who.and_then(|who| run(self, who.as_ref(), Args { name, args })))
    }
}

struct Args<'a> {
    name: &'a str,
    args: Value,
}

impl Args<'_> {
    fn read<T: DeserializeOwned>(self) -> Result<T, PeopleError> {
        let Args { name, args } = self;
        serde_json::from_value(args)
            .map_err(|e| PeopleError::Arguments { command: name.to_owned(), what: e.to_string() })
    }
}

/// Whoever is known; the table lets nobody else come here.
fn known(who: Option<&Who>) -> Result<&Who, PeopleError> {
    who.ok_or(PeopleError::NotSignedIn)
}

fn nothing(value: Value) -> Answered {
    Answered { value, cookie: Cookie::Keep }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Nothing {}

fn here(call: &Call<'_>, who: Option<&Who>) -> Result<Value, PeopleError> {
    let person = |w: &Who| {
        Ok::<_, PeopleError>(json!({
            "id": w.id.to_string(),
            "name": w.name,
            "role": w.role,
            "first_password": w.first_password,
            "second_factor": w.second,
            "second_wanted": w.second_wanted,
            "second_demanded": call.people.second_demanded()?,
            "idle_ms": IDLE_MS,
        }))
    };
    let person = who.map(person).transpose()?;
    Ok(json!({ "person": person, "set_up": call.people.is_set_up()?, "firm": call.people.firm()? }))
}

fn begun(call: &Call<'_>, (who, secret): (Who, String)) -> Result<Answered, PeopleError> {
    Ok(Answered { value: here(call, Some(&who))?, cookie: Cookie::Set(secret) })
}

fn session(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    let Nothing {} = args.read()?;
    Ok(nothing(here(call, who)?))
}

fn set_up(call: &mut Call<'_>, _: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Given {
        token: String,
        firm: String,
        name: String,
        password: String,
    }
    let Given { token, firm, name, password } = args.read()?;
    let first = First { token: &token, firm: &firm, name: &name, password: &password };
    let done = call.people.set_up(first, call.from, call.now, call.bits)?;
    begun(call, done)
}

fn sign_in(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Given {
        name: String,
        password: String,
        code: Option<String>,
    }
    let Given { name, password, code } = args.read()?;
    let given = (password.as_str(), code.as_deref());
    let done = call.people.sign_in(&name, given, who, call.from, call.now, call.bits)?;
    begun(call, done)
}

fn sign_out(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    let Nothing {} = args.read()?;
    call.people.sign_out(known(who)?, call.from, call.now)?;
    Ok(Answered { value: here(call, None)?, cookie: Cookie::Forget })
}

fn change_password(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Given {
        old: String,
        code: Option<String>,
        new: String,
    }
    let Given { old, code, new } = args.read()?;
    let by = (old.as_str(), code.as_deref());
    let done = call.people.change_password(known(who)?, by, &new, call.from, call.now, call.bits)?;
    begun(call, done)
}

fn row(person: &Person) -> Value {
    json!({
        "id": person.id.to_string(),
        "name": person.name,
        "role": person.role,
        "locked": person.is_locked(),
        "second_factor": person.second.is_some(),
        "since": person.since,
    })
}

fn people(call: &mut Call<'_>, _: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    let Nothing {} = args.read()?;
    Ok(nothing(call.people.all()?.iter().map(row).collect()))
}

fn begin_second(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Given {
        password: String,
        code: Option<String>,
    }
    let Given { password, code } = args.read()?;
    let given = (password.as_str(), code.as_deref());
    let bring = call.people.begin_second(known(who)?, given, (call.from, call.now), call.bits)?;
    let qr = views::link::qr(&bring.link);
    Ok(nothing(json!({ "secret": bring.secret, "link": bring.link, "qr": qr })))
}

fn confirm_second(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Given {
        code: String,
    }
    let Given { code } = args.read()?;
    let done = call.people.confirm_second(known(who)?, &code, (call.from, call.now), call.bits)?;
    begun(call, done)
}

fn drop_second(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Given {
        password: String,
        code: String,
    }
    let Given { password, code } = args.read()?;
    let who = call.people.drop_second(known(who)?, (&password, &code), (call.from, call.now))?;
    Ok(nothing(here(call, Some(&who))?))
}

fn own_sessions(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    let Nothing {} = args.read()?;
    Ok(nothing(sessions(call, known(who)?)?))
}

fn end_own(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Given {
        id: Option<String>,
        password: String,
    }
    let (Given { id, password }, who) = (args.read()?, known(who)?);
    call.people.end_own(who, (id.as_deref(), &password), call.from, call.now)?;
    Ok(nothing(sessions(call, who)?))
}

fn sessions(call: &Call<'_>, who: &Who) -> Result<Value, PeopleError> {
    // A moment of the database in the time of whoever asks; one that is no moment is left out.
    let at = |ms| Stamp::new(ms, call.now.offset_min()).ok();
    let row = |one: super::Session| {
        json!({
            "id": one.handle(),
            "since": at(one.started),
            "seen": at(one.seen),
            "from": one.from,
            "here": one.hash == who.session,
        })
    };
    Ok(call.people.own_sessions(who, call.now)?.into_iter().map(row).collect())
}

fn lift_second(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    let One { id } = args.read()?;
    Ok(nothing(row(&call.people.lift_second(known(who)?, number(&id)?, call.from, call.now)?)))
}

fn demand_second(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Given {
        demanded: bool,
        /// To ask for it no more.
        password: Option<String>,
        code: Option<String>,
    }
    let (Given { demanded, password, code }, owner) = (args.read()?, known(who)?);
    if demanded {
        call.people.demand_second(owner, (call.from, call.now))?;
    } else {
        let shown = (password.as_deref().unwrap_or_default(), code.as_deref());
        call.people.leave_second_free(owner, shown, (call.from, call.now))?;
    }
    Ok(nothing(json!(demanded)))
}

/// Who sees a house: everybody, or owners and those who are named. Owners are in no list.
fn seen(call: &Call<'_>, survey: SurveyId) -> Result<Answered, PeopleError> {
    let readers = call.people.readers(survey)?;
    let others = call.people.all()?.into_iter().filter(|person| person.role != Role::Owner);
    let row = |person: Person| {
        let sees = readers.as_ref().is_none_or(|readers| readers.contains(&person.id));
        json!({ "id": person.id.to_string(), "name": person.name, "role": person.role, "sees": sees })
    };
    Ok(nothing(json!({ "closed": readers.is_some(), "people": others.map(row).collect::<Vec<_>>() })))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OfHouse {
    survey: SurveyId,
}

fn who_sees(call: &mut Call<'_>, _: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    let OfHouse { survey } = args.read()?;
    seen(call, survey)
}

fn close_house(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    let OfHouse { survey } = args.read()?;
    call.people.close_house(known(who)?, survey, (call.from, call.now))?;
    seen(call, survey)
}

fn let_see(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Given {
        survey: SurveyId,
        id: String,
        sees: bool,
    }
    let Given { survey, id, sees } = args.read()?;
    call.people.let_see(known(who)?, (survey, number(&id)?, sees), (call.from, call.now))?;
    seen(call, survey)
}

fn open_house(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    let OfHouse { survey } = args.read()?;
    call.people.open_house(known(who)?, survey, (call.from, call.now))?;
    seen(call, survey)
}

fn add_person(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Given {
        name: String,
        role: Role,
        password: String,
    }
    let Given { name, role, password } = args.read()?;
    let new = Newcomer { name: &name, role, password: &password };
    Ok(nothing(row(&call.people.add(known(who)?, new, call.from, call.now, call.bits)?)))
}

fn set_role(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Given {
        id: String,
        role: Role,
    }
    let Given { id, role } = args.read()?;
    Ok(nothing(row(&call.people.set_role(known(who)?, number(&id)?, role, call.from, call.now)?)))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct One {
    id: String,
}

fn unlock(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    let One { id } = args.read()?;
    Ok(nothing(row(&call.people.unlock(known(who)?, number(&id)?, call.from, call.now)?)))
}

fn end_sessions(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    let One { id } = args.read()?;
    Ok(nothing(row(&call.people.end_sessions(known(who)?, number(&id)?, call.from, call.now)?)))
}

fn remove_person(call: &mut Call<'_>, who: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    let One { id } = args.read()?;
    Ok(nothing(row(&call.people.remove(known(who)?, number(&id)?, call.from, call.now)?)))
}

fn audit(call: &mut Call<'_>, _: Option<&Who>, args: Args<'_>) -> Result<Answered, PeopleError> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Given {
        before: Option<u64>,
    }
    let Given { before } = args.read()?;
    let lines = call.people.audit(before, AUDIT_LINES)?;
    Ok(nothing(lines.iter().map(|(line, who)| line.told(who.as_deref())).collect()))
}

impl super::AuditLine {
    /// As it is told, with the name of who did it.
    pub fn told(&self, who: Option<&str>) -> Value {
        json!({
            "n": self.n,
            "at": self.at,
            "who": who,
            "what": self.what,
            "about": self.about,
            "from": self.address,
        })
    }
}

fn number(id: &str) -> Result<PersonId, PeopleError> {
    PersonId::parse(id).ok_or(PeopleError::NoSuchPerson)
}
