//! The citrus that something is taken of: limes for their juice, lemons for their peel.

use crate::spelling::words;
use crate::vocabulary::{Kind, Open, Portion, Tag, Word};

use super::{Ingredient, Larder};

impl Larder {
    /// The citrus fruit that an ingredient is, or that its name says it is pressed or peeled from; `None` of anything else.
    pub(crate) fn fruit_of<'a>(&'a self, ingredient: &'a Ingredient) -> Option<&'a Ingredient> {
        let is_citrus = |of: &Ingredient| of.kind == Some(Kind::Fruit) && of.tags.contains(&Open::Known(Tag::Citrus));
        if is_citrus(ingredient) {
            return Some(ingredient);
        }
        let name = words(&ingredient.id);
        let (taken, fruit) = name.split_last()?;
        let is_taken = matches!(Portion::parse(taken)?, Portion::Juice | Portion::Zest | Portion::Peel);
        self.find(&fruit.join(" ")).filter(|fruit| is_taken && is_citrus(fruit))
    }
}
