//! What a product's heating and filling are worth, by the tables.

use super::data::ShelfLifeTables;
use super::product::Product;
use super::screen::{self, Screen, ScreenTable};

impl Product {
    /// Whether it was heated as its pH asks for: five decades of the pathogens of acidified food.
    pub(crate) fn five_log(&self, tables: &ShelfLifeTables) -> bool {
        let process = tables.heat.for_ph(self.cautious_ph());
        self.process.heating.as_ref().zip(process).is_some_and(|(heating, p)| p.fulfilled(heating) >= 1.0)
    }

    /// Whether it was heated as its pH asks for, then filled hot and closed.
    pub(crate) fn pasteurised(&self, tables: &ShelfLifeTables) -> bool {
        self.process.hot_bottled() && self.five_log(tables)
    }

    /// Whether vegetative cells were destroyed and nothing could get in since: what table A asks for. The hold is that of
    /// the 5-log process for its pH where that is milder, else of the most severe of vegetative pathogens.
    fn vegetative_cells_destroyed(&self, tables: &ShelfLifeTables) -> bool {
        let severest = tables.heat.severest_vegetative();
        let heating = self.process.heating.as_ref().zip(severest);
        self.pasteurised(tables) || (self.process.hot_bottled() && heating.is_some_and(|(h, p)| p.fulfilled(h) >= 1.0))
    }

    /// The screen at the cautious corner.
    pub fn screen(&self, tables: &ShelfLifeTables) -> Screen {
        let table = if self.vegetative_cells_destroyed(tables) { ScreenTable::A } else { ScreenTable::B };
        Screen { table, class: screen::look_up(table, self.cautious_ph(), self.cautious_aw()) }
    }

    /// log10 CFU/mL at the start, after any heating, and h0.
    pub(crate) fn start(&self, tables: &ShelfLifeTables) -> (f64, f64) {
        let (counts, lag) = (&tables.organisms.initial_count, &tables.organisms.lag);
        let contents = self.contents_or_worst();
        let rich = contents.juice || contents.nut || contents.garlic_or_herb;
        let raw = if contents.juice {
            counts.fresh_squeezed_juice
        } else if rich {
            counts.nut_or_herb_solids
        } else if self.process.hot_dissolved {
            counts.hot_dissolved_clean_bottle
        } else {
            counts.cold_mixed
        };
        let n0 = match &self.process.heating {
            Some(heating) => tables.heat.count_after(raw, heating, self.process.hot_bottled()),
            None => raw,
        };
        (n0, if rich { lag.juice_h0 } else { lag.syrup_h0 })
    }
}
