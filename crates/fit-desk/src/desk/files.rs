//! Files of the desk: what is asked before anything unsaved or any other file is lost, and what
//! becomes of reading and writing.

use super::Desk;
use crate::command::{
    AfterBroken, AfterChange, Answer, Broken, Changed, Command, Effect, LooksAt, Revision, Saying,
    Told, Tone,
};
use crate::history::History;
use crate::shelf;
use fit_doc::Session;
use fit_view::file_name::{FIRST_COPY, beside};
use std::path::PathBuf;
use std::sync::Arc;

/// What happens once an unsaved session is out of the way.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Then {
    New,
    AskOpen,
    Read(PathBuf),
    Quit,
}

impl Then {
    /// What the surroundings must do for it.
    fn effects(self) -> Vec<Effect> {
        vec![match self {
            Self::New => Effect::Begin,
            Self::AskOpen => Effect::AskOpen,
            Self::Read(path) => Effect::Read(path),
            Self::Quit => Effect::Quit,
        }]
    }
}

impl Desk {
    /// Does it now, or asks first where something unsaved would be lost.
    pub(super) fn guarded(&mut self, then: Then) -> Vec<Effect> {
        if self.modified() {
            self.asked = Some(then);
            return Vec::new();
        }
        self.go_on(then)
    }

    fn go_on(&mut self, then: Then) -> Vec<Effect> {
        self.reading = matches!(then, Then::Read(_)).then(|| self.revision());
        then.effects()
    }

    /// Opens what was picked in the dialog that [`Then::AskOpen`] led to.
    fn picked(&mut self, path: PathBuf) -> Vec<Effect> {
        let then = Then::Read(path);
        match self.given_up.take() {
            Some(revision) if revision == self.revision() => self.go_on(then),
            _ => self.guarded(then),
        }
    }

    pub(super) fn answered(&mut self, answer: Answer) -> Vec<Effect> {
        let Some(then) = self.asked.take() else { return Vec::new() };
        match answer {
            Answer::Cancel => Vec::new(),
            Answer::Discard => {
                // once a file is picked it is not asked again
                self.given_up = (then == Then::AskOpen).then(|| self.revision());
                self.go_on(then)
            }
            Answer::Save => {
                self.after_save = Some(then);
                self.save()
            }
        }
    }

    fn save(&mut self) -> Vec<Effect> {
        vec![match self.file.clone() {
            Some(path) => self.write(path, false),
            None => self.ask_save(),
        }]
    }

    fn ask_save(&self) -> Effect {
        let name = || PathBuf::from(shelf::file_name(&self.session().client.name));
        // a copy of what is only looked at, beside it
        let copy = || self.looks_at.as_ref().map(|of| beside(&of.path, FIRST_COPY));
        let path = self.tried.clone().or_else(|| self.file.clone()).or_else(copy);
        Effect::AskSave { path: path.unwrap_or_else(name) }
    }

    fn write(&mut self, path: PathBuf, replace: bool) -> Effect {
        self.tried = Some(path.clone());
        let session = Box::new(self.session().clone());
        Effect::Write { path, replace, session, revision: self.history.revision() }
    }

    /// What is asked of files, what is asked about them and what becomes of it; nothing of any other command.
    pub(super) fn of_file(&mut self, command: Command) -> Vec<Effect> {
        match command {
            Command::Open => return self.guarded(Then::AskOpen),
            Command::OpenPath(path) => return self.guarded(Then::Read(path)),
            Command::OpenPicked(path) => return self.picked(path),
            Command::Close => return self.guarded(Then::Quit),
            Command::Save => return self.save(),
            Command::SaveAs => return vec![self.ask_save()],
            Command::SavePath { path, replace } => {
                let ended = shelf::with_ending(&path);
                // agreed for the name that was given, not for one that was completed
                let agreed = replace && ended == path && self.file.as_ref() != Some(&ended);
                return vec![self.write(ended, agreed)];
            }
            Command::NotSaved(told) => (self.told, self.after_save) = (told, None),
            Command::Exists(path) => self.replaces = Some(path),
            Command::Replace(yes) => {
                let Some(path) = self.replaces.take() else { return Vec::new() };
                return vec![if yes { self.write(path, true) } else { self.ask_save() }];
            }
            Command::Changed(changed) => self.changed = Some(changed),
            Command::AfterChange(answer) => return self.after_change(answer),
            Command::Broken(broken) => (self.broken, self.reading) = (Some(broken), None),
            Command::AfterBroken(answer) => return self.after_broken(answer),
            Command::SavedBeside { at, revision, open } => {
                return self.saved_beside(at, revision, open);
            }
            Command::Recovered { path, session, notices, looks_at } => {
                return self.recovered((path, looks_at), *session, notices);
            }
            _ => {}
        }
        Vec::new()
    }

    fn after_change(&mut self, answer: AfterChange) -> Vec<Effect> {
        let Some(Changed { path, .. }) = self.changed.take() else { return Vec::new() };
        let open = match answer {
            AfterChange::PutMine => return vec![self.write(path, true)],
            AfterChange::Cancel => {
                self.after_save = None;
                return Vec::new();
            }
            AfterChange::KeepBoth => false,
            AfterChange::OpenTheirs => true,
        };
        let session = Box::new(self.session().clone());
        vec![Effect::WriteBeside { path, open, session, revision: self.history.revision() }]
    }

    fn after_broken(&mut self, answer: AfterBroken) -> Vec<Effect> {
        let Some(Broken { path, told, .. }) = self.broken.take() else { return Vec::new() };
        self.reading = Some(self.revision());
        vec![match answer {
            AfterBroken::Earlier => Effect::ReadEarlier(path),
            AfterBroken::AsItIs => Effect::ReadAsItIs(path),
            AfterBroken::Leave => {
                (self.told, self.reading) = (told, None);
                return Vec::new();
            }
        }]
    }

    fn saved_beside(&mut self, at: PathBuf, revision: Revision, open: PathBuf) -> Vec<Effect> {
        self.after_save = None;
        self.saved = revision;
        if self.modified() {
            // typed on while it was being written: that goes into the copy as well, and is worked on there
            (self.file, self.looks_at) = (Some(at), None);
            return Vec::new();
        }
        self.beside = Some(at);
        self.go_on(Then::Read(open))
    }

    /// Puts what was not saved, or what a file held earlier, on the desk: no file holds it now.
    fn recovered(
        &mut self,
        (path, looks_at): (Option<PathBuf>, Option<LooksAt>),
        session: Session,
        notices: Vec<Told>,
    ) -> Vec<Effect> {
        if self.worked_on_meanwhile()
            && let Some(path) = path
        {
            return self.guarded(Then::Read(path));
        }
        if self.put_down(session, path, notices) {
            (self.saved, self.looks_at) = (Revision::NEVER, looks_at);
        }
        Vec::new()
    }

    /// What was on the desk when a file was asked for has been worked on while it was being read: nothing
    /// of that was agreed to be lost.
    pub(super) fn worked_on_meanwhile(&mut self) -> bool {
        self.reading.take().is_some_and(|agreed| agreed != self.revision())
    }

    pub(super) fn kept(
        &mut self,
        path: PathBuf,
        revision: Revision,
        notices: Vec<Told>,
    ) -> Vec<Effect> {
        self.saved = revision;
        self.file = Some(path.clone());
        (self.tried, self.looks_at) = (None, None);
        self.told = notices;
        if self.told.is_empty() {
            self.told = vec![Told { tone: Tone::Done, text: Saying::Saved(path) }];
        }
        match self.after_save.take() {
            // typed on while it was being written: not everything is in the file
            Some(_) if self.modified() => Vec::new(),
            Some(then) => self.go_on(then),
            None => Vec::new(),
        }
    }

    /// Puts another session on the desk; where it cannot be weighed the one that lies there stays, and the
    /// answer is no.
    pub(super) fn put_down(
        &mut self,
        session: Session,
        file: Option<PathBuf>,
        notices: Vec<Told>,
    ) -> bool {
        let history = History::new(session, Some(&self.history));
        match Self::with(Arc::clone(&self.setup), history, file) {
            Ok(desk) => {
                let (room, theme) = (self.look.room, self.look.theme);
                // what is being drawn of the bench that goes is stopped with it
                let sampling = self.sampling.take();
                *self = Self { sampling, ..desk };
                (self.look.room, self.look.theme) = (room, theme);
                self.told = notices;
                true
            }
            Err(messages) => {
                self.told = messages.into_iter().map(Told::error).collect();
                false
            }
        }
    }
}
