//! Houses that are closed to all of the firm but its owners and those an owner named.

use std::collections::BTreeSet;
use std::net::IpAddr;

use survey::{Stamp, SurveyId};

use super::{AuditLine, Deed, People, PeopleError, PersonId, Role, Who};
use crate::OfficeError;
use crate::repo::{Repo, alone};

/// Which houses somebody does not see.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sight {
    closed: BTreeSet<SurveyId>,
    hidden: BTreeSet<SurveyId>,
}

impl Sight {
    /// True where this house is not theirs to see.
    pub fn hides(&self, survey: SurveyId) -> bool {
        self.hidden.contains(&survey)
    }
    /// True where they see all there are.
    pub fn is_whole(&self) -> bool {
        self.hidden.is_empty()
    }
    /// True where others do not see this house.
    pub fn is_closed(&self, survey: SurveyId) -> bool {
        self.closed.contains(&survey)
    }
}

impl People {
    /// What somebody sees.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn sight(&self, who: &Who) -> Result<Sight, PeopleError> {
        let mut sight = Sight::default();
        for (survey, readers) in self.repo().closed_houses()? {
            sight.closed.insert(survey);
            if who.role != Role::Owner && !readers.contains(&who.id) {
                sight.hidden.insert(survey);
            }
        }
        Ok(sight)
    }

    /// Who sees a house besides owners; none where everybody does.
    ///
    /// # Errors
    /// A house that is not here.
    pub(crate) fn readers(&self, survey: SurveyId) -> Result<Option<Vec<PersonId>>, PeopleError> {
        let repo = self.repo();
        is_here(repo.as_ref(), survey)?;
        Ok(repo
            .closed_houses()?
            .into_iter()
            .find(|(closed, _)| *closed == survey)
            .map(|(_, readers)| readers))
    }

    /// Closes a house to all but owners, until others are named; one that is closed stays as it is.
    ///
    /// # Errors
    /// A house that is not here.
    pub(crate) fn close_house(
        &self,
        owner: &Who,
        survey: SurveyId,
        (from, now): (IpAddr, Stamp),
    ) -> Result<(), PeopleError> {
        alone(self.repo().as_mut(), |repo| {
            is_here(repo, survey)?;
            if readers_of(repo, survey)?.is_none() {
                repo.close_house(survey, &[])?;
                let line = AuditLine::by(owner.id, Deed::HouseClosed, Some(survey.to_string()), from, now);
                repo.add_audit(&line)?;
            }
            Ok(())
        })
    }

    /// Lets somebody see a closed house, or no more. Nothing where it is open by now.
    ///
    /// # Errors
    /// A house that is not here, nobody by that number.
    pub(crate) fn let_see(
        &self,
        owner: &Who,
        (survey, id, sees): (SurveyId, PersonId, bool),
        (from, now): (IpAddr, Stamp),
    ) -> Result<(), PeopleError> {
        alone(self.repo().as_mut(), |repo| {
            is_here(repo, survey)?;
            let person = repo.people()?.into_iter().find(|p| p.id == id).ok_or(PeopleError::NoSuchPerson)?;
            let Some(mut readers) = readers_of(repo, survey)? else { return Ok(()) };
            if readers.contains(&id) == sees {
                return Ok(());
            }
            readers.retain(|reader| *reader != id);
            readers.extend(sees.then_some(id));
            repo.close_house(survey, &readers)?;
            let what = if sees { Deed::HouseShown } else { Deed::HouseHidden };
            let about = format!("{survey} {}", person.name);
            repo.add_audit(&AuditLine::by(owner.id, what, Some(about), from, now))?;
            Ok(())
        })
    }

    /// Opens it to everybody who is signed in.
    ///
    /// # Errors
    /// A house that is not here.
    pub(crate) fn open_house(
        &self,
        owner: &Who,
        survey: SurveyId,
        (from, now): (IpAddr, Stamp),
    ) -> Result<(), PeopleError> {
        alone(self.repo().as_mut(), |repo| {
            is_here(repo, survey)?;
            repo.open_house(survey)?;
            let line = AuditLine::by(owner.id, Deed::HouseOpened, Some(survey.to_string()), from, now);
            repo.add_audit(&line)?;
            Ok(())
        })
    }
}

fn readers_of(repo: &dyn Repo, survey: SurveyId) -> Result<Option<Vec<PersonId>>, OfficeError> {
    Ok(repo.closed_houses()?.into_iter().find(|(closed, _)| *closed == survey).map(|(_, readers)| readers))
}

fn is_here(repo: &dyn Repo, survey: SurveyId) -> Result<(), PeopleError> {
    let here = repo.packets()?.iter().any(|packet| packet.survey == survey);
    let none = || PeopleError::Office(OfficeError::NoPacket { packet: survey.to_string() });
    here.then_some(()).ok_or_else(none)
}
