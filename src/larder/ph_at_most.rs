//! The highest pH that is published of a fruit, where its record would make it sourer: the rows of `ph-at-most.csv`.

use std::sync::LazyLock;

use crate::units::Ph;
use crate::vocabulary::Evidence;
use crate::vocabulary::table::LongTable;

use super::{Ingredient, Larder};

static PH: LazyLock<LongTable> =
    LazyLock::new(|| LongTable::read("ph-at-most.csv", include_str!("data/ph-at-most.csv")));

impl Ingredient {
    /// The highest pH that is published of it, or of what it is like; none where the house measured its own, or its record is no sourer.
    pub(crate) fn ph_at_most(&self) -> Option<Ph> {
        let larder = Larder::built_in();
        let likes = self.like.iter().filter_map(|name| Some(larder.find(name)?.id.as_str()));
        let of_id = |id: &str| {
            let row = PH.rows_of(id).next()?;
            Ph::new(row.number("ph").unwrap_or_else(|| row.wrong("ph")))
        };
        let own = [self.id.as_str()].into_iter().chain(likes).find_map(of_id);
        own.filter(|_| self.status.evidence != Evidence::MeasuredByTheHouse)
    }
}
