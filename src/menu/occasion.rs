//! An event: how many glasses of each drink its guests take.

use chrono::NaiveDate;

use crate::diagnostic::{Code, Diagnostic, Span};
use crate::spelling::fold;

use super::file::{GUESTS, HOURS, Menu, Occasion, PER_HOUR as PER_HOUR_BOUNDS};

/// Drinks for each guest in an hour, where nobody states it (common practice, no source).
const PER_HOUR: f64 = 1.0;
/// What is made beyond that, where nobody states it (common practice, no source).
const RESERVE: f64 = 0.10;
/// The shares of an event may be off the whole by this much, for thirds are written in whole percent (ours).
const SHARES_OFF: f64 = 0.011;

/// What is asked of an event, in place of what the menu writes.
#[derive(Clone, Copy, Debug, Default)]
pub struct OccasionAsked {
    /// How many guests.
    pub guests: Option<u64>,
    /// How many hours.
    pub hours: Option<f64>,
    /// Drinks for each guest in an hour.
    pub per_hour: Option<f64>,
    /// What is made beyond that, as a share.
    pub reserve: Option<f64>,
    /// On which day.
    pub on: Option<NaiveDate>,
}

impl OccasionAsked {
    /// Whether anything is asked of one.
    pub(crate) fn is_any(&self) -> bool {
        self.guests.is_some() || self.hours.is_some() || self.per_hour.is_some() || self.reserve.is_some()
    }

    /// A number of guests.
    ///
    /// # Errors
    /// Where it is none, or more than any bar serves.
    pub fn guests(written: &str) -> Result<u64, String> {
        GUESTS.read(written).map(|guests| guests as u64)
    }

    /// A number of hours.
    ///
    /// # Errors
    /// Where it is none, or longer than a long weekend.
    pub fn hours(written: &str) -> Result<f64, String> {
        HOURS.read(written)
    }

    /// Drinks for each guest in an hour.
    ///
    /// # Errors
    /// Where it is none, or more than anybody drinks.
    pub fn per_hour(written: &str) -> Result<f64, String> {
        PER_HOUR_BOUNDS.read(written)
    }
}

/// An event of which everything is settled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Party {
    /// Guests.
    pub guests: u64,
    /// Hours.
    pub hours: f64,
    /// Drinks for each guest in an hour.
    pub per_hour: f64,
    /// Whether somebody stated that.
    pub per_hour_stated: bool,
    /// What is made beyond that, as a share.
    pub reserve: f64,
    /// Whether somebody stated that.
    pub reserve_stated: bool,
    /// The day, where it is known.
    pub on: Option<NaiveDate>,
}

impl Party {
    /// What the menu writes of an event, under what is asked. `None` where there is none, or where it does not say enough, which
    /// is reported.
    pub fn settle(menu: &Menu, asked: OccasionAsked, found: &mut Vec<Diagnostic>) -> Option<Self> {
        if menu.event.is_none() && !asked.is_any() {
            return None;
        }
        let written = menu.event.clone().unwrap_or_default();
        let Occasion { guests, hours, per_hour, reserve, on } = written;
        let guests = asked.guests.or(guests.map(|n| n.value));
        let hours = asked.hours.or(hours.map(|n| n.value));
        let (Some(guests), Some(hours)) = (guests, hours) else {
            let what = if guests.is_none() { "how many guests it has" } else { "how many hours they drink" };
            return Diagnostic::error(Code::MissingKey, format!("the event does not say {what}"))
                .help("state both: --guests 120 --hours 3; or under [event] in menu.toml: guests = 120 and hours = 3")
                .in_file(&menu.file)
                .refused(found);
        };
        let per_hour = asked.per_hour.or(per_hour.map(|n| n.value));
        let reserve = asked.reserve.or(reserve.map(|n| n.value));
        Some(Self {
            guests,
            hours,
            per_hour: per_hour.unwrap_or(PER_HOUR),
            per_hour_stated: per_hour.is_some(),
            reserve: reserve.unwrap_or(RESERVE),
            reserve_stated: reserve.is_some(),
            on: asked.on.or(on.map(|on| on.value)),
        })
    }
}

/// The glasses of one drink at an event.
#[derive(Clone, Debug, PartialEq)]
pub struct Served {
    /// Its place on the menu.
    pub place: usize,
    /// Its share, of one.
    pub share: f64,
    /// How many, with the reserve: whole glasses.
    pub glasses: u64,
}

/// How many glasses of each drink that has a share are made. What falls away has none: guests take of the others, as those
/// stand to each other. `None` where the shares are not the whole, or all of it falls away, which is reported.
pub fn served(menu: &Menu, party: &Party, fallen: &[String], found: &mut Vec<Diagnostic>) -> Option<Vec<Served>> {
    let shares: Vec<(usize, f64, Span)> = menu
        .drinks
        .iter()
        .enumerate()
        .filter_map(|(place, drink)| drink.share.map(|share| (place, share.value, share.span)))
        .collect();
    let whole: f64 = shares.iter().map(|(_, share, _)| share).sum();
    if shares.is_empty() {
        return Diagnostic::error(Code::MissingKey, "no drink of the menu has a share of the event")
            .help("write under each drink that is served there: share = \"25 %\"; together 100 %")
            .in_file(&menu.file)
            .refused(found);
    }
    if (whole - 1.0).abs() > SHARES_OFF {
        let title = format!("the shares of the event add to {:.0} %, not to 100 %", whole * 100.0);
        let diagnostic = Diagnostic::error(Code::OutOfRange, title)
            .help("correct the shares, or add a drink: of what is missing nobody knows what the guests take");
        let placed =
            shares.iter().fold(diagnostic, |said, (_, share, span)| said.at(*span, format!("{:.0} %", share * 100.0)));
        return placed.in_file(&menu.file).refused(found);
    }
    let goes_out = |place: usize| {
        let name = menu.drinks.get(place).map(|drink| fold(&drink.name.value));
        !fallen.iter().any(|of| Some(fold(of)) == name)
    };
    let kept: Vec<(usize, f64)> =
        shares.iter().filter(|(place, ..)| goes_out(*place)).map(|(place, share, _)| (*place, *share)).collect();
    let rest: f64 = kept.iter().map(|(_, share)| share).sum();
    if rest <= 0.0 {
        return Diagnostic::error(Code::Contradiction, "every drink that the event serves cannot be made without that")
            .help("give other drinks of the menu a share of the event")
            .in_file(&menu.file)
            .refused(found);
    }
    // with nothing fallen the shares stay as they are written
    let lifted = if kept.len() == shares.len() { 1.0 } else { whole / rest };
    let all = party.guests as f64 * party.hours * party.per_hour * (1.0 + party.reserve);
    let glasses = |share: f64| (all * share / whole - 1e-6).ceil().max(0.0) as u64;
    let served = kept.into_iter().map(|(place, share)| (place, share * lifted));
    Some(served.map(|(place, share)| Served { place, share, glasses: glasses(share) }).collect())
}
