//! A part that cannot be swapped.

use crate::diagnostic::{Code, Diagnostic};

use super::super::error::SwapError;
use super::super::target::row;
use super::parts::not_on_card;

const SWAPPABLE: &str = "swap a sugar, a syrup, a spirit, a juice or an acid";

impl SwapError {
    /// What is said of it.
    pub(in super::super) fn diagnostics(self) -> Vec<Diagnostic> {
        let (code, title, help) = match self {
            Self::LookUp(found) => return found,
            Self::NotOnCard(name) => return vec![not_on_card(&name)],
            Self::Strained(old) => (
                Code::BadArgument,
                format!("`{old}` is strained out again: what it leaves behind is flavour, which is not computed"),
                SWAPPABLE.to_owned(),
            ),
            Self::BringsNothing(old) => (
                Code::BadArgument,
                format!("`{old}` brings no sugar, no acid and no alcohol that could be kept"),
                SWAPPABLE.to_owned(),
            ),
            Self::Lacks { new, old, kind } => {
                let what = row(kind).brings;
                (
                    Code::OutOfReach,
                    format!("`{new}` brings no {what}, which is what `{old}` is there for"),
                    format!("take a part that brings {what}"),
                )
            }
            Self::NeverUsed(old) => (
                Code::Unused,
                format!("`{old}` never comes into the finished batch"),
                "use its stage, or take it off the card".to_owned(),
            ),
            Self::NoVolume => (
                Code::NoDensity,
                "the volume of the batch cannot be computed".to_owned(),
                "swap in the card by hand: the same grams of sugar, acid or alcohol".to_owned(),
            ),
            Self::Engine(why) => (
                Code::OutOfReach,
                format!("no masses keep this batch as it is: {why}"),
                "the new part may be too like another part of the card: take that one off first".to_owned(),
            ),
            Self::Negative { short, water, old: (old, old_g), most_g } => {
                let names: Vec<_> = short.iter().map(|name| format!("`{name}`")).collect();
                // Below a gram there is nothing to give.
                let some = most_g.filter(|most| *most >= 1.0);
                let why = match water {
                    true if most_g.is_some() && some.is_none() => "water, and this card has no water to give up",
                    true => "more water than the card has to give",
                    false => "too much of it",
                };
                let limit = some.map_or_else(String::new, |most| {
                    format!("at most {:.0} g of the {old_g:.0} g `{old}` can be swapped, or ", most.floor())
                });
                (
                    Code::OutOfReach,
                    format!("to keep this batch as it is, less than no {} would have to go in", names.join(" and ")),
                    format!("the new part brings {why}: {limit}take a stronger part"),
                )
            }
        };
        vec![Diagnostic::error(code, title).help(help)]
    }
}
