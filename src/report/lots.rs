//! `record` and what happens to a lot after it, `due`, `recall`: the book as it is shown.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::Serialize;

use crate::house::House;
use crate::lots::again::brings_now;
use crate::lots::cause::PulledFor;
use crate::lots::due::{self, Soon};
use crate::lots::event::{BatchReading, Event, Happened, PartUsed, Recorded, UseBy};
use crate::lots::not_on_book::{AskedProduct, NotOnBook};
use crate::lots::poured::{PouredDrink, poured};
use crate::lots::recall::Chain;
use crate::lots::reprint::{self, LabelChange, Reprint, reprints};
use crate::lots::strike::{LotLine, lines};
use crate::lots::untold::in_doubt;
use crate::lots::{LotBook, LotStanding, LotState, book};
use crate::menu::ListedDrink;
use crate::safety::STANDING_NOTE;
use crate::vocabulary::Word;

use super::guest::{Guest, GuestView};
use super::{Report, View};

pub(crate) type LotReport = Report<LotView>;
pub(crate) type DueReport = Report<DueView>;
pub(crate) type RecallReport = Report<RecallView>;

/// One lot.
#[derive(Clone, Debug, Serialize)]
pub struct LotView {
    pub(crate) lot: String,
    pub(crate) product: String,
    pub(crate) made: NaiveDate,
    pub(crate) maker: Option<String>,
    pub(crate) mass_g: f64,
    pub(crate) volume_ml: Option<f64>,
    pub(crate) containers: Option<u32>,
    pub(crate) each_ml: Option<f64>,
    pub(crate) kept_back: u32,
    pub(crate) left: Option<Left>,
    pub(crate) store: String,
    pub(crate) use_by: UseBy,
    /// Why nobody is to use it any more.
    pub(crate) pulled: Option<PulledFor>,
    pub(crate) opened: Option<NaiveDate>,
    pub(crate) standing: LotStanding,
    pub(crate) soon: Option<Soon>,
    pub(crate) parts: Vec<PartUsed>,
    pub(crate) readings: Vec<BatchReading>,
    pub(crate) allergens: Vec<String>,
    pub(crate) allergens_not_stated: Vec<String>,
    /// By the cards of today.
    #[serde(flatten)]
    pub(crate) guest: GuestView,
    pub(crate) abv_pct: Option<f64>,
    pub(crate) sheet: String,
    /// Everything that happened to it, in words.
    pub(crate) history: Vec<HistoryLine>,
    /// Who struck out that there is such a lot, and why.
    pub(crate) struck_out: Option<String>,
}

/// One thing that happened.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct HistoryLine {
    pub(crate) on: NaiveDate,
    pub(crate) words: String,
    /// Whether it says how the lot was.
    pub(crate) is_taste: bool,
    /// Whether it was wrong, and a later line takes it back.
    pub(crate) is_struck: bool,
    pub(crate) event: String,
}

impl LotView {
    /// A lot as it stands on a day.
    pub(crate) fn new(book: &LotBook, state: &LotState, on: NaiveDate) -> Self {
        let Recorded { product, made, maker, mass_g, volume_ml, filled, kept_back, parts, readings, .. } =
            Recorded::clone(&state.recorded);
        Self {
            lot: state.lot.clone(),
            product,
            made,
            maker,
            mass_g,
            volume_ml,
            containers: filled.map(|(count, _)| count),
            each_ml: filled.map(|(_, ml)| ml),
            kept_back,
            left: Left::of(state),
            store: state.store.clone(),
            use_by: state.use_by.clone(),
            pulled: state.pulled.clone(),
            opened: state.opened,
            standing: state.standing,
            soon: due::soon(state, on),
            parts,
            readings,
            allergens: reprint::allergens(&state.recorded.allergens, &[]),
            allergens_not_stated: state.recorded.allergens_not_stated.clone(),
            guest: GuestView::default(),
            abv_pct: state.recorded.abv_pct,
            sheet: state.recorded.sheet.clone(),
            history: lines(book, state).iter().map(|line| HistoryLine::of(line, state.standing)).collect(),
            struck_out: None,
        }
    }
}

impl LotView {
    /// The same with what goes in for a guest.
    pub(crate) fn for_a_guest(self, house: &House) -> Self {
        let guest = Guest::of_product(&self.product, house).beside(&self.allergens, &self.allergens_not_stated);
        Self { guest, ..self }
    }

    /// The same of a lot that there never was, by the line that says so.
    pub(crate) fn struck_by(self, event: &Event) -> Self {
        let words = struck_words(event);
        Self { struck_out: Some(words), soon: None, left: None, ..self }
    }
}

/// "by Ana on Mon 30 Nov 2026: that was another lot".
pub(crate) fn struck_words(event: &Event) -> String {
    let Happened::Withdrawn { why, by, .. } = &event.happened else { return String::new() };
    let by = by.as_ref().map_or_else(String::new, |by| format!("by {by} "));
    format!("{by}on {}: {why}", book::day_of(event).format("%a %-d %b %Y"))
}

impl HistoryLine {
    fn of(LotLine { event, struck_by }: &LotLine<'_>, standing: LotStanding) -> Self {
        let words = match &event.happened {
            Happened::Recorded(recorded) => format!("made, into the {}", recorded.store),
            Happened::Tasted { taste, signs, note } => {
                let signs: Vec<&str> = signs.iter().map(|sign| sign.word()).collect();
                let said = [signs.join(", "), note.clone().unwrap_or_default()];
                let said: Vec<String> = said.into_iter().filter(|s| !s.is_empty()).collect();
                let said = if said.is_empty() { String::new() } else { format!(": {}", said.join("; ")) };
                format!("tasted, {taste}{said}")
            }
            Happened::Opened { .. } => "opened".to_owned(),
            Happened::Moved { to, .. } => format!("moved to the {to}"),
            Happened::Labelled(said) => match said.day {
                Some(day) => format!("label printed, with {day}"),
                None => "label printed, frozen".to_owned(),
            },
            Happened::UsedUp => "used up while it was good".to_owned(),
            Happened::Discarded { why, .. } if standing == LotStanding::UsedUp => format!("pulled: {why}"),
            Happened::Discarded { why, .. } => format!("thrown away: {why}"),
            Happened::Told { part, .. } => format!("told where {part} is from"),
            Happened::Accepted { days } => format!("{days} days of quality taken from the lots"),
            Happened::Withdrawn { why, by, .. } => {
                let by = by.as_ref().map_or_else(String::new, |by| format!(" by {by}"));
                format!("a line above struck out{by}: {why}")
            }
        };
        let is_struck = struck_by.is_some();
        let is_taste = !is_struck && matches!(event.happened, Happened::Tasted { .. });
        let words = if is_struck { format!("STRUCK OUT: {words}") } else { words };
        Self { on: book::day_of(event), words, is_taste, is_struck, event: event.id.clone() }
    }
}

impl View for LotView {
    const VERB: &'static str = "lot";
    const KEYS: &'static str = "lot product made maker mass_g volume_ml containers each_ml kept_back left store use_by pulled opened standing soon parts readings allergens allergens_not_stated allergens_for_a_guest allergens_for_a_guest_not_stated abv_pct sheet history struck_out";
}

/// What goes first.
#[derive(Clone, Debug, Serialize)]
pub struct DueView {
    pub(crate) on: NaiveDate,
    pub(crate) lots: Vec<DueLine>,
    /// Labels that say what is not so any more.
    pub(crate) labels: Vec<ReprintView>,
}

/// A label to print again.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct ReprintView {
    pub(crate) lot: String,
    pub(crate) product: String,
    pub(crate) changed: Vec<LabelChange>,
    /// What prints it.
    pub(crate) command: String,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct DueLine {
    pub(crate) soon: Soon,
    pub(crate) lot: String,
    pub(crate) product: String,
    pub(crate) store: String,
    pub(crate) use_by: UseBy,
    /// Why nobody is to use it any more.
    pub(crate) pulled: Option<PulledFor>,
    /// A lot that was pulled and may be in it.
    pub(crate) may_hold: Option<MayHold>,
    pub(crate) opened: Option<NaiveDate>,
    pub(crate) kept_back: u32,
    pub(crate) left: Option<Left>,
}

/// A lot that was pulled, and why.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct MayHold {
    pub(crate) lot: String,
    pub(crate) why: PulledFor,
}

/// What is left of a lot by the book, which does not know what was served by the glass.
#[derive(Clone, Copy, Debug, Serialize)]
pub(crate) struct Left {
    pub(crate) g: f64,
    pub(crate) ml: Option<f64>,
}

impl Left {
    /// Known where the lot is there and something of it went into another.
    fn of(lot: &LotState) -> Option<Self> {
        let g = lot.left_g().filter(|_| lot.standing == LotStanding::InUse && lot.into_lots_g > 0.0)?;
        Some(Self { g, ml: lot.recorded.volume_ml.map(|ml| ml * g / lot.recorded.mass_g) })
    }
}

impl DueView {
    /// The book on a day.
    pub(crate) fn new(book: &LotBook, house: &House, on: NaiveDate) -> Self {
        let mut known: BTreeMap<String, Vec<String>> = BTreeMap::new();
        let brings = |lot: &LotState| {
            let product = &lot.recorded.product;
            known.entry(product.clone()).or_insert_with(|| brings_now(product, house)).clone()
        };
        let reprint = |of: Reprint<'_>| ReprintView {
            lot: of.lot.lot.clone(),
            product: of.lot.recorded.product.clone(),
            changed: of.changed,
            command: format!("stillroom label {} -o label.pdf", of.lot.lot),
        };
        let labels = reprints(book, on, brings).into_iter().map(reprint).collect();
        let in_doubt = in_doubt(book);
        let may_hold = |lot: &LotState| {
            let of = in_doubt.get(lot.lot.as_str())?;
            Some(MayHold { lot: of.pulled.lot.clone(), why: of.why.clone() })
        };
        let line = |(soon, state): (Soon, &LotState)| DueLine {
            soon,
            lot: state.lot.clone(),
            product: state.recorded.product.clone(),
            store: state.store.clone(),
            use_by: state.use_by.clone(),
            pulled: state.pulled.clone(),
            may_hold: may_hold(state),
            opened: state.opened,
            kept_back: state.recorded.kept_back,
            left: Left::of(state),
        };
        Self { on, lots: due::due(book, on).into_iter().map(line).collect(), labels }
    }
}

impl View for DueView {
    const VERB: &'static str = "due";
    const KEYS: &'static str = "on lots labels";

    /// Something has to go.
    fn stops(&self) -> bool {
        self.lots.iter().any(|line| line.soon == Soon::MustGo)
    }
}

/// The chain of a lot both ways.
#[derive(Clone, Debug, Serialize)]
pub struct RecallView {
    pub(crate) house: Option<String>,
    pub(crate) on: NaiveDate,
    pub(crate) lot: LotView,
    /// What went into it, near lots first.
    pub(crate) from: Vec<LotView>,
    /// What it went into, near lots first.
    pub(crate) into: Vec<LotView>,
    /// Lots that are named and that the book does not have.
    pub(crate) unknown: Vec<String>,
    /// Lots that may hold it: of their part of the same product nobody has said the lot.
    pub(crate) perhaps: Vec<LotView>,
    /// Drinks of the menu that may have had it.
    pub(crate) drinks: Vec<PouredDrink>,
    /// Products that are made with it and have no lot on the book.
    pub(crate) ask: Vec<AskedProduct>,
    pub(crate) note: &'static str,
}

impl RecallView {
    pub(crate) fn new(
        house: &House,
        book: &LotBook,
        chain: &Chain<'_>,
        (drinks, not_on_book): (&[ListedDrink<'_>], &NotOnBook),
        on: NaiveDate,
    ) -> Self {
        let views =
            |lots: &[&LotState]| lots.iter().map(|state| LotView::new(book, state, on).for_a_guest(house)).collect();
        Self {
            house: house.settings.name.clone(),
            on,
            lot: LotView::new(book, chain.lot, on).for_a_guest(house),
            from: views(&chain.from),
            into: views(&chain.into),
            unknown: chain.unknown.clone(),
            perhaps: views(&chain.perhaps),
            drinks: poured(chain, drinks, house, on),
            ask: not_on_book.asked(chain, drinks),
            note: STANDING_NOTE,
        }
    }
}

impl View for RecallView {
    const VERB: &'static str = "recall";
    const KEYS: &'static str = "house on lot from into unknown perhaps drinks ask note";
}
