//! `learn`: what the lots teach of quality and of losses.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::lots::learn::{Expected, Lesson, Looks, expected_quality, lesson};
use crate::lots::losses::{HeldLoss, Pressing};
use crate::lots::sheet::FrozenSheet;
use crate::lots::{LotBook, LotState};
use crate::spelling::fold;

use super::{Report, View};

pub(crate) type LearnReport = Report<LearnView>;

/// What the lots teach.
#[derive(Clone, Debug, Serialize)]
pub struct LearnView {
    pub(crate) lessons: Vec<LessonView>,
    /// What strained solids held.
    pub(crate) losses: Vec<HeldLoss>,
    /// What juice fruits gave.
    pub(crate) pressed: Vec<Pressing>,
}

/// What the lots of one recipe in one store teach.
#[derive(Clone, Debug, Serialize)]
pub struct LessonView {
    /// The product.
    pub product: String,
    /// What the rules of date give it there now, days; null where they refuse one.
    pub days_now: Option<u32>,
    /// What was learned.
    #[serde(flatten)]
    pub lesson: Lesson,
    /// From what.
    #[serde(skip)]
    pub looks: Looks,
    /// The content hash of its recipe.
    pub recipe: String,
}

impl LessonView {
    /// What the lots of a product and a store say, of all where none is named: product by product, recipe by recipe, store by
    /// store. `sheet` gives what is kept with a lot.
    pub fn all(
        book: &LotBook,
        product: Option<&str>,
        store: Option<&str>,
        sheet: impl Fn(&LotState) -> Option<FrozenSheet>,
    ) -> Vec<Self> {
        let wanted = |of: &str, name: Option<&str>| name.is_none_or(|name| fold(name) == fold(of));
        let mut recipes: BTreeMap<(&str, &str), BTreeMap<&str, &LotState>> = BTreeMap::new();
        for lot in book.lots().filter(|lot| wanted(&lot.recorded.product, product)) {
            let of = &lot.recorded;
            recipes.entry((&of.product, &of.recipe)).or_default().entry(&of.store).or_insert(lot);
        }
        let mut lessons = Vec::new();
        for ((product, recipe), stores) in recipes {
            let expected = stores.values().filter_map(|lot| expected_quality(lot, &sheet(lot)?));
            let (all, days): (Vec<Expected>, Vec<Option<u32>>) = expected.unzip();
            let asked = all.iter().zip(days).filter(|(here, _)| wanted(&here.store, store));
            lessons.extend(asked.filter_map(|(here, days_now)| {
                let (lesson, looks) = lesson(book, product, recipe, here, &all)?;
                Some(Self { product: product.to_owned(), days_now, lesson, looks, recipe: recipe.to_owned() })
            }));
        }
        lessons
    }
}

impl View for LearnView {
    const VERB: &'static str = "learn";
    const KEYS: &'static str = "lessons losses pressed";
}
