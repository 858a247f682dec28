//! Water activity: the estimate, and the cautious value that safety uses.

use super::{Equation, Properties, Property, PropertyLine, Subject};
use crate::references::keys;
use crate::units::display::grouped;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "water activity",
        unit: "1",
        equation: "ln aw = ln xw - K xs²; K of sucrose from Starzak and Peacock, mixed by moles; bound: Ross's product",
        range: "to 70 % of solids, -10 to 110 °C; with spirit for display only",
        error: "0.002; with glycerol 0.006; above 70 % of solids 0.03; with spirit 0.03",
        sources: keys!["starzak-peacock", "norrish-1966", "ross-1975", "van-laar-unifac"],
    },
    value: |p| p.water_activity,
    unit: "",
    decimals: 3,
    line: Some(PropertyLine { said_unknown: |_| true, remark: cautious, ..PropertyLine::new("water activity") }),
    target: None,
    headline: None,
};

pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 2] {
    match of.liquid.water_activity(of.at) {
        Ok(activity) => {
            let estimate = of.value::<_, &str>("water activity", Ok(activity.estimate), |aw| aw.get());
            [estimate, Some(activity.upper.get())]
        }
        Err(why) => [of.refused("water activity", &why), None],
    }
}

fn cautious(p: &Properties) -> String {
    p.water_activity_upper.map_or_else(String::new, |upper| format!(" (cautious {})", grouped(upper, 3)))
}
