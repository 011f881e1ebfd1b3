//! The desk: one open session, and what happens to it.

mod acts;
mod files;
mod hands;
mod sampling;
mod search;
mod tape;
mod tried;
mod visits;

use crate::command::{
    Broken, Changed, Command, Effect, Gesture, LooksAt, Revision, Saying, Told, Tone,
};
use crate::history::History;
use crate::look::{ForClient, Look, Room, ThemeChoice};
use crate::{matching, shelf};
use files::Then;
use fit_doc::{
    Cockpit, CockpitEdit, Edit, HandPlace, Message, RideEdit, Session, Stock, UndoStep, Visit,
};
use fit_view::act::Act;
use fit_view::file_name::FOLDER;
use fit_view::side::{Hold, Sight};
use fit_view::weigh::{self, Before, MeasureNext, Survey, Weighed, weigh_visit_again};
use sampling::Sampling;
pub use search::{Found, Searched, Sought, Why};
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};
use tape::KeptTape;
use tried::Noted;

/// What a desk works with and never changes.
#[derive(Debug, Clone)]
pub struct Setup {
    /// Statistics of bodies.
    pub survey: Survey,
    /// What the shop has.
    pub stock: Stock,
}

/// One open session with its undo list, and what is looked at.
#[derive(Debug, Clone)]
pub struct Desk {
    setup: Arc<Setup>,
    history: History,
    /// The state that the file holds.
    saved: Revision,
    file: Option<PathBuf>,
    /// The file that what is on the desk was read from, where it may not be saved over.
    looks_at: Option<LooksAt>,
    weighed: Arc<Weighed>,
    /// How sure it is where a limit acts, once that is drawn.
    sampling: Option<Sampling>,
    /// What of it the next weighing takes over.
    before: Before,
    /// Readings of its visit to look at again.
    doubtful: Vec<Message>,
    /// What to measure next, once somebody asked.
    next: OnceLock<Option<MeasureNext>>,
    /// What the tape found, once somebody asked.
    tape: OnceLock<KeptTape>,
    /// The visit laid over the one before, once somebody asked.
    over: OnceLock<Option<Weighed>>,
    /// What came of looking through the shop.
    sought: Sought,
    /// Where somebody put the hands; else they are where the client feels it most.
    hands_said: Option<HandPlace>,
    /// The same where it is decided.
    decided_with: Option<HandPlace>,
    /// Of which hands it was noted on a trial whether they reach the brake, in order.
    brakes_noted: Vec<Noted>,
    /// Counts searches: what an earlier one brings comes too late.
    ticket: u64,
    look: Look,
    told: Vec<Told>,
    /// What waits for the answer to "save first?".
    asked: Option<Then>,
    /// The state that may be lost for a file that is still to be picked.
    given_up: Option<Revision>,
    /// What waits for a save to succeed.
    after_save: Option<Then>,
    /// Where it was last tried to save to, until that succeeds.
    tried: Option<PathBuf>,
    /// "Replace this file?" waits for its answer.
    replaces: Option<PathBuf>,
    /// The file is no longer what was opened: it is asked what becomes of both.
    changed: Option<Changed>,
    /// The file that was to be opened cannot be: it is asked what is, in its place.
    broken: Option<Broken>,
    /// What was on the desk was saved here, beside what is being opened.
    beside: Option<PathBuf>,
    /// The state that may be put away for the file that is being read.
    reading: Option<Revision>,
}

impl Desk {
    /// A desk with a session on it.
    ///
    /// # Errors
    /// When the session cannot be weighed.
    pub fn new(
        setup: Arc<Setup>,
        session: Session,
        file: Option<PathBuf>,
    ) -> Result<Self, Vec<Message>> {
        Self::with(setup, History::new(session, None), file)
    }

    fn with(
        setup: Arc<Setup>,
        history: History,
        file: Option<PathBuf>,
    ) -> Result<Self, Vec<Message>> {
        let visit = latest(history.session());
        let mut before = Before::default();
        let weighed = weigh(&setup, history.session(), visit, &mut before)?;
        let look = Look {
            room: Room::Bench,
            visit,
            hands: hands::asked_about(
                history.session().visits.get(visit).map(AsRef::as_ref),
                &weighed,
            ),
            all_hands: false,
            behind: false,
            hold: Hold::Axle,
            sight: Sight::Side,
            measures: false,
            ruler: false,
            against_trial: false,
            choosing: false,
            balancing: false,
            for_client: ForClient::Not,
            selected: spoken_of(&weighed),
            theme: ThemeChoice::System,
        };
        let saved = history.revision();
        Ok(Self {
            saved,
            file,
            looks_at: None,
            doubtful: doubtful(&setup, history.session(), visit),
            next: OnceLock::new(),
            tape: OnceLock::new(),
            over: OnceLock::new(),
            sought: Sought::Not,
            hands_said: None,
            decided_with: None,
            brakes_noted: Vec::new(),
            ticket: 0,
            setup,
            history,
            weighed,
            sampling: None,
            before,
            look,
            told: Vec::new(),
            asked: None,
            given_up: None,
            after_save: None,
            tried: None,
            replaces: None,
            changed: None,
            broken: None,
            beside: None,
            reading: None,
        })
    }

    /// Readings of the client's body to look at again.
    pub fn doubtful(&self) -> &[Message] {
        &self.doubtful
    }

    /// What to measure next; none where all that is usually read was read. Reckoned when it is first
    /// asked for, and kept while what is weighed stays.
    pub fn measure_next(&self) -> Option<&MeasureNext> {
        self.next.get_or_init(|| self.weighed.measure_next()).as_ref()
    }

    /// The document.
    pub fn session(&self) -> &Session {
        self.history.session()
    }

    /// The visit that is looked at.
    pub fn visit(&self) -> Option<&Visit> {
        self.session().visits.get(self.look.visit).map(AsRef::as_ref)
    }

    /// The cockpit that is spoken of.
    pub fn selected(&self) -> Option<&Cockpit> {
        self.visit()?.cockpit(&self.look.selected)
    }

    /// The bench of the visit that is looked at, weighed as the document is now.
    pub fn weighed(&self) -> &Weighed {
        &self.weighed
    }

    /// What is looked at.
    pub fn look(&self) -> &Look {
        &self.look
    }

    /// What it works with.
    pub fn setup(&self) -> &Arc<Setup> {
        &self.setup
    }

    /// What the shop has.
    pub fn stock(&self) -> &Stock {
        &self.setup.stock
    }

    /// The file that is open.
    pub fn file(&self) -> Option<&Path> {
        self.file.as_deref()
    }

    /// The file that is only looked at, and why; none: there is a file to save to, or none at all.
    pub fn looks_at(&self) -> Option<&LooksAt> {
        self.looks_at.as_ref()
    }

    /// What is on the desk was read from a file that is only looked at.
    pub fn only_look(&mut self, at: LooksAt) {
        self.looks_at = Some(at);
    }

    /// Which state the document is in: whatever is derived from it can be kept while this stays.
    pub fn revision(&self) -> Revision {
        self.history.revision()
    }

    /// There are changes that no file holds.
    pub fn modified(&self) -> bool {
        self.history.revision() != self.saved
    }

    /// The step that undo would take back.
    pub fn can_undo(&self) -> Option<&UndoStep> {
        self.history.can_undo()
    }

    /// The step that redo would do again.
    pub fn can_redo(&self) -> Option<&UndoStep> {
        self.history.can_redo()
    }

    /// What was said and not yet dismissed, oldest first.
    pub fn told(&self) -> &[Told] {
        &self.told
    }

    /// "Save first?" waits for its [`Answer`](crate::Answer).
    pub fn question(&self) -> bool {
        self.asked.is_some()
    }

    /// Whether that is asked before the window is closed.
    pub fn asks_to_close(&self) -> bool {
        self.asked == Some(Then::Quit)
    }

    /// "Replace this file?" waits for [`Command::Replace`].
    pub fn replaces(&self) -> Option<&Path> {
        self.replaces.as_deref()
    }

    /// "What becomes of both?" waits for [`Command::AfterChange`].
    pub fn changed(&self) -> Option<&Changed> {
        self.changed.as_ref()
    }

    /// "Something else in its place?" waits for [`Command::AfterBroken`].
    pub fn broken(&self) -> Option<&Broken> {
        self.broken.as_ref()
    }

    /// Whether a question stands over everything until it is answered.
    pub fn asks(&self) -> bool {
        self.question()
            || self.replaces.is_some()
            || self.changed.is_some()
            || self.broken.is_some()
    }

    /// The trial that is running is over, after so many minutes by the clock.
    pub fn end_trial(&self, minutes: Option<u32>) -> Option<Command> {
        let (at, _) = self.visit()?.ride()?;
        let (visit, change) = (self.look.visit, RideEdit::End { minutes });
        Some(Command::Edit(Edit::Ride { visit, at, change }, None))
    }

    /// What choosing something in a menu, or pressing its key, asks of the desk; none where it is
    /// the window's own business.
    pub fn command(&self, act: Act) -> Option<Command> {
        let selected = || self.look.selected.clone();
        Some(match act {
            Act::New => Command::New,
            Act::Open => Command::Open,
            Act::Save => Command::Save,
            Act::SaveAs => Command::SaveAs,
            Act::Paper => Command::Paper,
            Act::Close => Command::Close,
            Act::Undo => Command::Undo,
            Act::Redo => Command::Redo,
            Act::Who => Command::Go(Room::Who),
            Act::Body => Command::Go(Room::Body),
            Act::Bike => Command::Go(Room::Bike),
            Act::Bench => Command::Go(Room::Bench),
            Act::Later => Command::Go(Room::Later),
            Act::Decide => Command::Go(Room::Decide),
            Act::Hands(place) => Command::Hands(place),
            Act::AllHands => Command::AllHands(!self.look.all_hands),
            Act::Behind => Command::Behind(!self.look.behind),
            Act::Hold(hold) => Command::Hold(hold),
            Act::Sight(sight) => Command::Sight(sight),
            Act::Measures => Command::Measures(!self.look.measures),
            Act::Ruler => Command::Ruler(!self.look.ruler),
            Act::AgainstTrial => Command::AgainstTrial(!self.look.against_trial),
            Act::Choosing => Command::Choosing(!self.look.choosing),
            Act::Balance => Command::Balancing(!self.look.balancing),
            Act::Search => Command::Search(None),
            Act::ClientView => self.for_client(ForClient::Here),
            Act::ClientBeside => self.for_client(ForClient::Beside),
            Act::Trial => {
                let id = selected();
                let its = self.weighed.cockpits.iter().find(|of| of.id == id)?;
                let (visit, foretold) = (self.look.visit, weigh::foretold(its));
                let brakes = weigh::foretold_brakes(its, self.visit()?);
                Command::Edit(Edit::StartRide { visit, cockpit: id, foretold, brakes }, None)
            }
            Act::EndTrial => self.end_trial(None)?,
            Act::TakeTape => Command::Edit(Edit::TakeTapeOver { visit: self.look.visit }, None),
            Act::Duplicate => Command::Duplicate(selected()),
            Act::Remove => {
                Command::Edit(Edit::Remove { visit: self.look.visit, id: selected() }, None)
            }
            Act::MatchHoods => Command::Match(selected(), HandPlace::Hoods),
            Act::MatchDrops => Command::Match(selected(), HandPlace::Drops),
            Act::AddBar
            | Act::FollowUp
            | Act::AfterNote
            | Act::OtherBar
            | Act::Passphrase
            | Act::Erase
            | Act::Trials
            | Act::TableIn
            | Act::Palette
            | Act::Larger
            | Act::Smaller
            | Act::UsualSize
            | Act::SwitchTheme
            | Act::Keys => {
                return None;
            }
        })
    }

    /// Does what is asked, and says what the surroundings must do.
    pub fn apply(&mut self, command: Command) -> Vec<Effect> {
        let mut effects = self.done(command);
        effects.extend(self.follow_sample());
        effects
    }

    fn done(&mut self, command: Command) -> Vec<Effect> {
        match command {
            Command::Edit(edit, gesture) => self.edit(&edit, gesture),
            Command::GiveUp(gesture) => {
                if self.history.give_up(gesture) {
                    self.weigh_again();
                    self.keep_selection();
                }
            }
            Command::Undo => self.travel(History::undo, Saying::Undone),
            Command::Redo => self.travel(History::redo, Saying::Redone),
            Command::Go(room) => {
                self.look.room = room;
                self.follow_what_is_felt();
            }
            Command::Visit(visit) => self.look_at_visit(visit),
            Command::Hands(place) => self.put_hands(place),
            Command::AllHands(all) => self.look.all_hands = all,
            Command::Hold(hold) => self.look.hold = hold,
            Command::Sight(sight) => self.look.sight = sight,
            Command::Measures(measures) => self.look.measures = measures,
            Command::Ruler(ruler) => self.look.ruler = ruler,
            Command::Behind(behind) => self.look.behind = behind,
            Command::AgainstTrial(against) => self.look.against_trial = against,
            Command::Choosing(choosing) => self.look.choosing = choosing,
            Command::Search(quick) => return self.search(quick, None),
            Command::HoldAgainst(axes) => return self.hold_against(axes),
            Command::Balancing(balancing) => return self.balance(balancing),
            Command::PointOnBench(index) => self.put_point_on_bench(index),
            Command::ForgetSearch => self.sought = Sought::Not,
            Command::StopSearch => return vec![Effect::StopSearch],
            Command::Searched { ticket, quick, brought } => self.searched(ticket, quick, brought),
            Command::AnswerOnBench(index) => self.put_answer_on_bench(index),
            Command::ForClient(shown) => self.look.for_client = shown,
            Command::Try { id, change, label, gesture } => {
                self.try_out(&id, change, label, gesture);
            }
            Command::SaddleRightOn(id) => self.saddle_right_on(&id),
            Command::Select(id) => self.look.selected = id,
            Command::Theme(theme) => self.look.theme = theme,
            Command::AddFromStock(bar) => self.add_from_stock(&bar),
            Command::OtherBar(id, bar) => self.other_bar(&id, &bar),
            Command::Duplicate(id) => self.duplicate(&id),
            Command::Match(id, place) => self.bring_back(&id, place),
            Command::Stock(stock) => return self.other_stock(*stock),
            Command::New => return self.guarded(Then::New),
            Command::Begun(session) => {
                self.put_down(*session, None, Vec::new());
                self.look.room = Room::Who;
            }
            Command::Open
            | Command::OpenPath(_)
            | Command::OpenPicked(_)
            | Command::Close
            | Command::Save
            | Command::SaveAs
            | Command::SavePath { .. }
            | Command::NotSaved(_)
            | Command::Exists(_)
            | Command::Replace(_)
            | Command::Changed(_)
            | Command::AfterChange(_)
            | Command::Broken(_)
            | Command::AfterBroken(_)
            | Command::SavedBeside { .. }
            | Command::Recovered { .. } => return self.of_file(command),
            Command::Paper => {
                let session = Box::new(self.session().clone());
                // beside the session; before that has a file, in a folder of its own
                let beside = self.file.as_ref().and_then(|file| file.parent());
                let folder = beside.map_or_else(|| PathBuf::from(FOLDER), Path::to_owned);
                return vec![Effect::Sheet { session, visit: self.look.visit, folder }];
            }
            Command::Answer(answer) => return self.answered(answer),
            Command::Dismiss(index) => {
                if index < self.told.len() {
                    self.told.remove(index);
                }
            }
            Command::Opened { path, session, notices, read_only } => {
                if self.worked_on_meanwhile() {
                    return self.guarded(Then::Read(path));
                }
                let beside = self.beside.take();
                let looks_at = || LooksAt { path: path.clone(), why: notices.clone() };
                let looks_at = read_only.then(looks_at);
                // without a file of its own, saving asks where to
                if self.put_down(*session, (!read_only).then_some(path), notices) {
                    self.looks_at = looks_at;
                }
                let saved = |at| Told { tone: Tone::Done, text: Saying::SavedBeside(at) };
                self.told.extend(beside.map(saved));
            }
            Command::NotOpened(told) => (self.told, self.reading) = (told, None),
            Command::Saved { path, revision, notices } => {
                return self.kept(path, revision, notices);
            }
            Command::Sample => return self.sample(),
            Command::StopSample => return self.stop_sample(),
            Command::Sampled { of, sample } => self.sampled(&of, sample),
            Command::Tell(told) => self.told.push(told),
        }
        Vec::new()
    }

    // —— the document ——

    fn edit(&mut self, edit: &Edit, gesture: Option<Gesture>) {
        self.told.clear();
        if let Err(messages) = self.try_edit(edit, gesture) {
            self.told = messages.into_iter().map(Told::error).collect();
        }
    }

    fn try_edit(&mut self, edit: &Edit, gesture: Option<Gesture>) -> Result<(), Vec<Message>> {
        self.is_open(edit, self.session()).map_err(|message| vec![message])?;
        let (session, step) = edit.apply(self.session()).map_err(|message| vec![message])?;
        self.is_open(edit, &session).map_err(|message| vec![message])?;
        // a frame belongs to every visit of its bike
        if matches!(edit, Edit::Frame { .. } | Edit::TakeTapeOver { .. } | Edit::Born(_)) {
            let refused = fit_doc::check(&session).refused;
            if !refused.is_empty() {
                return Err(refused);
            }
        }
        let looked_at = self.looked_at_after(edit);
        self.weighed = weigh(&self.setup, &session, looked_at, &mut self.before)?;
        let session = self.foretold_anew(session, edit);
        let before = self.revision();
        self.history.push(session, step, gesture);
        self.note_brakes(edit, before);
        self.forget_answers();
        match edit {
            Edit::FollowUp { .. } => self.look_at_visit(self.session().visits.len() - 1),
            Edit::TakeFollowUpBack { .. } => self.look_at_visit(looked_at),
            _ => {}
        }
        if matches!(edit, Edit::Reading { .. } | Edit::Landmark { .. } | Edit::Sex(_)) {
            self.doubt_again();
        }
        self.keep_selection();
        Ok(())
    }

    fn travel(&mut self, go: fn(&mut History) -> Option<UndoStep>, say: fn(UndoStep) -> Saying) {
        if let Some(step) = go(&mut self.history) {
            self.look_where_there_is_one(&step);
            self.told = vec![Told { tone: Tone::Done, text: say(step) }];
            self.weigh_again();
            self.doubt_again();
            self.keep_selection();
        }
    }

    /// Whether the readings go together takes as long as weighing a bench, so it is only asked where
    /// they may be others.
    fn doubt_again(&mut self) {
        self.doubtful = doubtful(&self.setup, self.session(), self.look.visit);
    }

    /// What was asked about the document as it was, and is asked anew.
    fn forget_answers(&mut self) {
        self.next = OnceLock::new();
        self.forget_tape();
        self.over = OnceLock::new();
    }

    /// Weighs a state that was weighed before, so that it cannot fail; should it, what is shown
    /// stays and the reason is said.
    fn weigh_again(&mut self) {
        self.forget_answers();
        match weigh(&self.setup, self.history.session(), self.look.visit, &mut self.before) {
            Ok(weighed) => self.weighed = weighed,
            Err(messages) => self.told = messages.into_iter().map(Told::error).collect(),
        }
    }

    fn keep_selection(&mut self) {
        if self.selected().is_none() {
            self.look.selected = spoken_of(&self.weighed);
        }
    }

    fn look_at_visit(&mut self, visit: usize) {
        match weigh(&self.setup, self.history.session(), visit, &mut self.before) {
            Ok(weighed) => {
                self.look.visit = visit;
                self.decided_with = None;
                self.sought = Sought::Not;
                self.forget_answers();
                self.told = self.closed().map(Told::notice).into_iter().collect();
                self.look.selected = spoken_of(&weighed);
                self.weighed = weighed;
                self.follow_what_is_felt();
                self.doubt_again();
            }
            Err(messages) => self.told = messages.into_iter().map(Told::error).collect(),
        }
    }

    fn is_as_it_came(&self, id: &str) -> bool {
        self.visit().is_some_and(|visit| visit.as_it_came.id == id)
    }

    // —— candidates ——

    fn add(&mut self, cockpit: Cockpit) {
        let edit = Edit::Add { visit: self.look.visit, cockpit: Box::new(cockpit) };
        self.edit(&edit, None);
        if self.told.is_empty()
            && let Some(last) = self.visit().and_then(|visit| visit.bench.last())
        {
            self.look.selected = last.id.clone();
        }
    }

    fn add_from_stock(&mut self, bar: &str) {
        let Some(bar) = self.setup.stock.bar(bar) else { return };
        let Some(like) = self.selected() else { return };
        match shelf::with_bar(like, bar, &self.setup.stock) {
            Ok(cockpit) => self.add(cockpit),
            Err(message) => self.told = vec![Told::error(message)],
        }
    }

    /// Another bar on a cockpit; what was ridden stays as it is, on the bench what came as well.
    fn other_bar(&mut self, id: &str, bar: &str) {
        if self.stays(id) && (self.look.room == Room::Bench || !self.is_as_it_came(id)) {
            return self.add_from_stock(bar);
        }
        let Some(bar) = self.setup.stock.bar(bar).cloned() else { return };
        let Some(present) = self.visit().and_then(|visit| visit.cockpit(id)) else { return };
        let stem = shelf::stem_for(&present.stem, &bar, &self.setup.stock).map(Box::new);
        let change = CockpitEdit::Bar { bar: Box::new(bar), stem };
        let edit = Edit::Cockpit { visit: self.look.visit, id: id.to_owned(), change };
        self.edit(&edit, None);
    }

    fn duplicate(&mut self, id: &str) {
        let Some(like) = self.visit().and_then(|visit| visit.cockpit(id)).cloned() else { return };
        self.add(Cockpit { ridden: false, ..like });
    }

    fn bring_back(&mut self, id: &str, place: HandPlace) {
        let Some(visit) = self.visit() else { return };
        let Some(bike) = self.session().bike(&visit.bike) else { return };
        let Some(present) = visit.cockpit(id) else { return };
        let label = present.label.clone();
        let found =
            matching::bring_back(&bike.frame, &visit.as_it_came, present, place, &self.setup.stock);
        match found {
            Ok(Some(found)) => {
                let of = Box::new(found.cockpit);
                let change = CockpitEdit::Settings { of: of.clone(), place };
                self.try_out(id, change, label, None);
                if self.told.is_empty() {
                    let (residual_mm, wider_mm) = (found.residual_mm, found.wider_mm);
                    let turned_deg = found.turned_deg;
                    let text = Saying::Matched { of, place, residual_mm, wider_mm, turned_deg };
                    self.told = vec![Told { tone: Tone::Done, text }];
                }
            }
            Ok(None) => {
                let text = Saying::NoMatch { label, place };
                self.told = vec![Told { tone: Tone::Notice, text }];
            }
            Err(message) => self.told = vec![Told::error(message)],
        }
    }
}

fn weigh(
    setup: &Setup,
    session: &Session,
    visit: usize,
    before: &mut Before,
) -> Result<Arc<Weighed>, Vec<Message>> {
    let visit = session.visits.get(visit).ok_or_else(|| vec![Message::NoVisit])?;
    weigh_visit_again(session, visit, &setup.survey, before)
}

fn doubtful(setup: &Setup, session: &Session, visit: usize) -> Vec<Message> {
    let visit = session.visits.get(visit);
    visit.map_or_else(Vec::new, |visit| weigh::doubtful(session, visit, &setup.survey))
}

/// The visit with the latest date; of two on one day the later one.
fn latest(session: &Session) -> usize {
    let days = session.visits.iter().enumerate();
    days.max_by_key(|(_, visit)| visit.date).map_or(0, |(index, _)| index)
}

/// What is spoken of first: the chosen cockpit, else the first candidate, else the one as it came.
fn spoken_of(weighed: &Weighed) -> String {
    let chosen = weighed.cockpits.iter().find(|cockpit| cockpit.chosen);
    let cockpit = chosen.or_else(|| weighed.cockpits.get(1)).or_else(|| weighed.cockpits.first());
    cockpit.map(|cockpit| cockpit.id.clone()).unwrap_or_default()
}
