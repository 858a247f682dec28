//! All events in their order, and what each lot is after them.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};
use std::sync::Arc;

use chrono::{DateTime, Duration, NaiveDate, Utc};

use crate::shelf_life::reason::DateRule;

use super::below_growth::ages_of_growth;
use super::cause::PulledFor;
use super::event::{DiscardCause, Event, Happened, OnLabel, Recorded, Sign, Taste, UseBy};

/// Where a lot stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LotStanding {
    /// It is there.
    InUse,
    /// It was finished while it was good.
    UsedUp,
    /// It was thrown away.
    Discarded,
}

/// A lot after all that happened to it.
#[derive(Clone, Debug, PartialEq)]
pub struct LotState {
    /// Its code.
    pub lot: String,
    /// The batch.
    pub recorded: Arc<Recorded>,
    /// Whether it is there.
    pub standing: LotStanding,
    /// The day on which that became so, by the house's clock.
    pub since: NaiveDate,
    /// The store that it is in.
    pub store: String,
    /// Every store that it has been in.
    pub stores: Vec<String>,
    /// Those of them in which it stood from one day to another.
    pub stood_in: BTreeSet<String>,
    /// The day on which it came where it is.
    pub here_since: NaiveDate,
    /// Its date there.
    pub use_by: UseBy,
    /// The day on which it was opened.
    pub opened: Option<NaiveDate>,
    /// Its stays in the freezer: the day in, the day out.
    pub frozen: Vec<(NaiveDate, Option<NaiveDate>)>,
    /// The last word on how it is, with its day.
    pub tasted: Option<(NaiveDate, Taste)>,
    /// Something grew in it, what was seen of it and on which day.
    pub growth: Option<(NaiveDate, Sign)>,
    /// It was thrown away for what pulls, or early and nobody said for what.
    thrown: Option<PulledFor>,
    /// Why nobody is to use it any more; also of what is gone.
    pub pulled: Option<PulledFor>,
    /// What of it went into other lots, grams.
    pub into_lots_g: f64,
    /// What its last label said.
    pub labelled: Option<OnLabel>,
    /// The days of quality that the house took from its lots, and the place of that event.
    pub accepted: Option<(usize, u32)>,
    /// Everything that happened, by places in the book.
    pub events: Vec<usize>,
    /// What was taken back, and what took it back, by places in the book.
    pub struck: Vec<(usize, usize)>,
}

impl LotState {
    /// A lot as it was recorded.
    fn new(lot: &str, recorded: &Arc<Recorded>, frozen: bool) -> Self {
        Self {
            lot: lot.to_owned(),
            recorded: Arc::clone(recorded),
            standing: LotStanding::InUse,
            since: recorded.made,
            store: recorded.store.clone(),
            stores: vec![recorded.store.clone()],
            stood_in: BTreeSet::new(),
            here_since: recorded.made,
            use_by: recorded.use_by.clone(),
            opened: None,
            frozen: if frozen { vec![(recorded.made, None)] } else { Vec::new() },
            tasted: None,
            growth: None,
            thrown: None,
            pulled: None,
            into_lots_g: 0.0,
            labelled: None,
            accepted: None,
            events: Vec::new(),
            struck: Vec::new(),
        }
    }

    /// Its age in days when something was seen to grow in it.
    pub fn growth_days(&self) -> Option<i64> {
        Some((self.growth?.0 - self.recorded.made).num_days().max(0))
    }

    /// What the book knows to be left of it, grams: what was made, less what went into other lots. What is served by the
    /// glass is not on the book. `None` where it was not told what was made.
    pub fn left_g(&self) -> Option<f64> {
        match self.standing {
            LotStanding::InUse => {
                (self.recorded.mass_g > 0.0).then(|| (self.recorded.mass_g - self.into_lots_g).max(0.0))
            }
            LotStanding::UsedUp | LotStanding::Discarded => Some(0.0),
        }
    }

    /// Whether more went into others than it was, in whole grams: some of that was of another lot.
    pub(super) fn is_overdrawn(&self) -> bool {
        self.recorded.mass_g > 0.0 && self.into_lots_g.round() > self.recorded.mass_g.round()
    }

    /// What is wrong with it itself.
    fn own_fault(&self) -> Option<PulledFor> {
        let grew = self.growth.map(|(on, sign)| PulledFor::Growth { sign, on });
        let off = self.tasted.filter(|(_, taste)| *taste == Taste::Off).map(|(on, _)| PulledFor::Off { on });
        grew.or(off).or_else(|| self.thrown.clone())
    }

    /// What follows from how it was thrown away. Where nobody has said for what, that is no harm if it was past its date or
    /// going: else it may be anything.
    fn thrown_for(&self, cause: Option<DiscardCause>, on: NaiveDate) -> Option<PulledFor> {
        let UseBy { day, refused, .. } = &self.use_by;
        let is_early = day.map_or(refused.is_none(), |last| on < last);
        let is_going = self.tasted.is_some_and(|(_, taste)| taste == Taste::Going);
        // who tells it of what is gone has a reason, whatever its date was
        match (cause, self.standing) {
            (_, LotStanding::UsedUp) => PulledFor::after_use(cause, on),
            (Some(cause), _) => cause.pulls().then_some(PulledFor::Thrown { cause, on }),
            (None, _) => (is_early && !is_going).then_some(PulledFor::NotSaid { on }),
        }
    }
}

/// What is wrong with a book as a whole.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Two batches have the same code: two devices gave it, or a file was copied.
    SameCode(String),
    /// Amounts of a batch are below zero: they count as not told, for a recall needs the rest of it.
    BelowZero {
        /// The lot.
        lot: String,
        /// Which, with what is written.
        what: Vec<String>,
    },
    /// Something happened to a lot that nobody recorded.
    UnknownLot {
        /// The lot.
        lot: String,
        /// The event.
        event: String,
    },
}

/// The book.
#[derive(Clone, Debug, Default)]
pub struct LotBook {
    /// All events, the earliest first, each once.
    pub events: Vec<Event>,
    lots: Vec<LotState>,
    by_code: HashMap<String, usize>,
    /// Lots of which the recording was taken back, with the place of what did that.
    struck: HashMap<String, usize>,
    /// What is wrong with it.
    pub faults: Vec<Fault>,
}

/// The day that the clock on the wall showed.
pub fn day_of(event: &Event) -> NaiveDate {
    local(event.at, event.zone_min)
}

fn local(at: DateTime<Utc>, zone_min: i32) -> NaiveDate {
    (at.naive_utc() + Duration::minutes(i64::from(zone_min))).date()
}

impl LotBook {
    /// The book of events in any order, with repetitions: what was synced twice is one. Clocks may run backwards: an event
    /// comes after the recording of its lot whatever its time says.
    pub fn of(mut events: Vec<Event>) -> Self {
        let mut seen = HashSet::with_capacity(events.len());
        let mut first = events.iter().map(|event| seen.insert(event.id.as_str())).collect::<Vec<bool>>().into_iter();
        events.retain(|_| first.next().unwrap_or_default());
        let is_later = |event: &Event| !matches!(event.happened, Happened::Recorded(_));
        events.sort_by(|a, b| (is_later(a), a.at, &a.id).cmp(&(is_later(b), b.at, &b.id)));
        let mut book = Self { events, ..Self::default() };
        book.run();
        book
    }

    fn run(&mut self) {
        let events = std::mem::take(&mut self.events);
        let withdrawn: HashMap<&str, usize> = events
            .iter()
            .enumerate()
            .filter_map(|(place, e)| match &e.happened {
                Happened::Withdrawn { event, .. } => Some((event.as_str(), place)),
                _ => None,
            })
            .collect();
        for (place, event) in events.iter().enumerate() {
            if let Some(by) = withdrawn.get(event.id.as_str()) {
                if matches!(event.happened, Happened::Recorded(_)) {
                    self.struck.insert(event.lot.clone(), *by);
                } else if let Some(lot) = self.by_code.get(&event.lot).and_then(|&lot| self.lots.get_mut(lot)) {
                    lot.struck.push((place, *by));
                }
                continue;
            }
            if let Happened::Recorded(recorded) = &event.happened {
                if self.by_code.contains_key(&event.lot) {
                    self.faults.push(Fault::SameCode(event.lot.clone()));
                    continue;
                }
                self.by_code.insert(event.lot.clone(), self.lots.len());
                let frozen = recorded.use_by.days_left_when_thawed.is_some();
                let mut state = LotState::new(&event.lot, recorded, frozen);
                let what = recorded.below_zero();
                if !what.is_empty() {
                    Arc::make_mut(&mut state.recorded).without_below_zero();
                    self.faults.push(Fault::BelowZero { lot: event.lot.clone(), what });
                }
                self.lots.push(state);
            }
            let Some(&lot) = self.by_code.get(&event.lot) else {
                // nothing is missed of a lot that there never was
                if self.struck.contains_key(&event.lot) {
                    continue;
                }
                self.faults.push(Fault::UnknownLot { lot: event.lot.clone(), event: event.id.clone() });
                continue;
            };
            let Some(state) = self.lots.get_mut(lot) else { continue };
            state.events.push(place);
            apply(state, event);
            if let Happened::Accepted { days } = event.happened {
                state.accepted = Some((place, days));
            }
        }
        self.events = events;
        self.count_what_went_out();
        self.follow_what_is_off();
        self.pull_below_what_grew();
    }

    /// Where something grew in a lot, every other of its product, and of what is most of it that product, ends before that age, on
    /// whatever shelf it stands.
    fn pull_below_what_grew(&mut self) {
        let lots: Vec<_> = self.lots.iter().map(|lot| (&*lot.recorded, lot.growth_days())).collect();
        let ages = ages_of_growth(&lots, |code| self.lot(code).map(|lot| &*lot.recorded));
        for (lot, age) in self.lots.iter_mut().zip(ages) {
            let Some(age) = age else { continue };
            // the day made is day 1, whatever the habit of the house: a life of one day less than that age
            let last = lot.recorded.made + Duration::days((age - 2).max(0));
            if lot.use_by.day.is_some_and(|day| day > last) {
                (lot.use_by.day, lot.use_by.because) = (Some(last), Some(DateRule::SpoiledLot.to_string()));
            }
        }
    }

    fn count_what_went_out(&mut self) {
        let mut out: HashMap<usize, f64> = HashMap::new();
        for part in self.lots.iter().flat_map(|lot| &lot.recorded.parts) {
            if let Some(&place) = part.from.lot().and_then(|of| self.by_code.get(of)) {
                *out.entry(place).or_default() += part.mass_g;
            }
        }
        for (place, grams) in out {
            self.lots.get_mut(place).into_iter().for_each(|lot| lot.into_lots_g = grams);
        }
    }

    /// What a lot that was pulled went into goes with it, however far.
    fn follow_what_is_off(&mut self) {
        let mut from: Vec<(String, String, PulledFor)> = Vec::new();
        for lot in &mut self.lots {
            lot.pulled = lot.own_fault();
            from.extend(lot.pulled.clone().map(|why| (lot.lot.clone(), lot.lot.clone(), why)));
        }
        if from.is_empty() {
            return;
        }
        let uses: BTreeMap<String, Vec<usize>> = self
            .uses()
            .into_iter()
            .map(|(of, into)| (of.to_owned(), into.iter().filter_map(|lot| self.by_code.get(*lot)).copied().collect()))
            .collect();
        while let Some((lot, off, why)) = from.pop() {
            for place in uses.get(&lot).into_iter().flatten() {
                if let Some(other) = self.lots.get_mut(*place).filter(|other| other.pulled.is_none()) {
                    other.pulled = Some(PulledFor::Holds { lot: off.clone(), why: Box::new(why.clone()) });
                    from.push((other.lot.clone(), off.clone(), why.clone()));
                }
            }
        }
    }

    /// The lot with this code.
    pub fn lot(&self, code: &str) -> Option<&LotState> {
        self.by_code.get(code).and_then(|&place| self.lots.get(place))
    }

    /// Whether a lot was made after a day on which another ended; on that day itself by when it was written.
    pub(super) fn is_made_after(&self, lot: &LotState, other: &LotState, day: NaiveDate) -> bool {
        let written = |at: Option<&usize>| Some(self.events.get(*at?)?.at);
        lot.recorded.made > day
            || lot.recorded.made == day && written(lot.events.first()) > written(other.events.last())
    }

    /// What took back that there is a lot of this code.
    pub fn struck(&self, code: &str) -> Option<&Event> {
        self.events.get(*self.struck.get(code).filter(|_| self.lot(code).is_none())?)
    }

    /// All lots, in the order in which they were recorded.
    pub fn lots(&self) -> impl Iterator<Item = &LotState> {
        self.lots.iter()
    }

    /// The lots into which each lot went, by its code.
    pub fn uses(&self) -> BTreeMap<&str, Vec<&str>> {
        let mut uses: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        for state in &self.lots {
            for of in state.recorded.parts.iter().filter_map(|part| part.from.lot()) {
                uses.entry(of).or_default().push(&state.lot);
            }
        }
        uses
    }
}

fn apply(state: &mut LotState, event: &Event) {
    let day = day_of(event);
    match &event.happened {
        Happened::Recorded(_) | Happened::Withdrawn { .. } | Happened::Accepted { .. } => {}
        Happened::Tasted { taste, signs, .. } => {
            state.tasted = Some((day, *taste));
            saw_growth(state, day, signs);
        }
        Happened::Opened { use_by } => {
            state.opened.get_or_insert(day);
            state.use_by = use_by.clone();
        }
        Happened::Moved { to, frozen, use_by } => {
            match (state.frozen.last_mut(), *frozen) {
                (Some((_, out @ None)), false) => *out = Some(day),
                (Some((_, None)), true) | (_, false) => {}
                (_, true) => state.frozen.push((day, None)),
            }
            if state.here_since < day {
                state.stood_in.insert(state.store.clone());
            }
            state.here_since = day;
            state.store.clone_from(to);
            if !state.stores.contains(to) {
                state.stores.push(to.clone());
            }
            state.use_by = use_by.clone();
        }
        Happened::Labelled(said) => state.labelled = Some(said.clone()),
        Happened::UsedUp => (state.standing, state.since) = (LotStanding::UsedUp, day),
        Happened::Discarded { cause, .. } => {
            state.thrown = state.thrown_for(*cause, day);
            if state.standing != LotStanding::UsedUp {
                (state.standing, state.since) = (LotStanding::Discarded, day);
            }
            // what grew in what was used up grew while there was any
            let seen = day.min(state.since);
            cause.iter().for_each(|cause| saw_growth(state, seen, cause.sign().as_slice()));
        }
        Happened::Told { part, from, use_by } => {
            for used in Arc::make_mut(&mut state.recorded).parts.iter_mut().filter(|used| used.of == *part) {
                (used.from, used.assumed) = (from.clone(), false);
            }
            // it stood in the freezer from the first day on, as its date now says
            if use_by.days_left_when_thawed.is_some() && state.frozen.is_empty() {
                state.frozen.push((state.recorded.made, None));
            }
            state.use_by = use_by.clone();
        }
    }
}

fn saw_growth(state: &mut LotState, day: NaiveDate, signs: &[Sign]) {
    if let Some(sign) = signs.iter().copied().find(|sign| sign.is_growth()) {
        state.growth.get_or_insert((day, sign));
    }
}
