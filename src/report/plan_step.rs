//! A line of the prep list: what is done on a day, with how much of which product.

use chrono::NaiveDate;
use serde::Serialize;

use crate::plan::tables::{PrepStep, Task};
use crate::plan::waits::words;
use crate::plan::{Plan, PrepUnit};

#[derive(Clone, Debug, Serialize)]
pub(crate) struct PrepView {
    pub(crate) date: NaiveDate,
    #[serde(flatten)]
    pub(crate) step: StepView,
    /// With which product.
    pub of: String,
    pub(crate) amount: u64,
    pub(crate) unit: PrepUnit,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) note: Option<String>,
}

#[derive(Clone, Debug, Serialize)]
#[serde(tag = "what")]
pub(crate) enum StepView {
    #[serde(rename = "throw away")]
    ThrowAway(StepDay),
    /// The date that goes first of several.
    #[serde(rename = "use first")]
    UseFirst(StepDay),
    /// It ends before `into` is used up.
    #[serde(rename = "leave")]
    Leave {
        into: String,
        #[serde(flatten)]
        last: StepDay,
    },
    #[serde(rename = "start")]
    Start {
        /// The stage; null for the product itself.
        stage: Option<String>,
        takes: Option<String>,
        ready: NaiveDate,
    },
    #[serde(rename = "take")]
    GoesInto { into: String },
    #[serde(rename = "make")]
    Make(StepDay),
}

/// The last day of what a step is done with.
#[derive(Clone, Copy, Debug, Serialize)]
pub(crate) struct StepDay {
    pub(crate) use_by: NaiveDate,
    best_before: bool,
}

impl StepDay {
    /// What it is called.
    pub(crate) fn mark(self) -> &'static str {
        if self.best_before { "best before" } else { "use by" }
    }
}

impl StepView {
    pub(crate) fn last_day(&self) -> Option<StepDay> {
        match self {
            Self::ThrowAway(last) | Self::UseFirst(last) | Self::Leave { last, .. } | Self::Make(last) => Some(*last),
            Self::Start { .. } | Self::GoesInto { .. } => None,
        }
    }

    pub(crate) fn word(&self) -> &'static str {
        match self {
            Self::ThrowAway(_) => "throw away",
            Self::UseFirst(_) => "use first",
            Self::Leave { .. } => "leave",
            Self::Start { .. } => "start",
            Self::GoesInto { .. } => "take",
            Self::Make(_) => "make",
        }
    }
}

impl PrepView {
    pub(super) fn new(plan: &Plan, task: &Task<'_>) -> Self {
        let date = |day| plan.calendar.date(day);
        let product = plan.products.iter().map(|planned| &planned.product).find(|of| of.name == task.product);
        let last_day =
            |last| StepDay { use_by: date(last), best_before: product.is_some_and(|of| of.is_best_before(last)) };
        Self {
            date: date(task.day),
            step: match task.what {
                PrepStep::ThrowAway(last) => StepView::ThrowAway(last_day(last)),
                PrepStep::UseFirst(last) => StepView::UseFirst(last_day(last)),
                PrepStep::Leave { last, outer } => StepView::Leave { into: outer.to_owned(), last: last_day(last) },
                PrepStep::Make(last) => {
                    let best_before = product.is_some_and(|of| of.best_before);
                    StepView::Make(StepDay { use_by: date(last), best_before })
                }
                PrepStep::GoesInto(outer) => StepView::GoesInto { into: outer.to_owned() },
                PrepStep::Start { stage, takes, ready } => StepView::Start {
                    stage: stage.map(str::to_owned),
                    takes: takes.map(str::to_owned),
                    ready: date(ready),
                },
            },
            of: task.product.to_owned(),
            amount: task.amount,
            unit: task.unit,
            note: (!task.waits.is_empty()).then(|| words(&plan.calendar, &task.waits)),
        }
    }
}
