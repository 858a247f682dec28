//! A card for the bench on one side of paper: the largest letters with which all of it fits.

use crate::render::sheet::card as words;
use crate::render::sheet::glass::glass as of_glass;
use crate::render::sheet::{PaperPara, SaidKind};
use crate::report::serve::ServeReport;
use crate::report::solve::SolveReport;

use super::NotPrinted;
use super::layout::{Column, Para, PrintSheet, SMALLEST_PT};
use super::stock::CardSize;

/// The edge that is left free, mm (ours): most printers reach no further.
const MARGIN: f64 = 6.0;
/// The largest letters of a step, points, and each step to smaller ones (ours).
const LARGEST_PT: f64 = 11.0;
const STEP: f64 = 0.97;
/// Letters of the stop, the name and the date against those of a step (ours).
const STOP: f64 = 2.0;
const TITLE: f64 = 1.5;
const DATE: f64 = 1.1;

/// A card.
///
/// # Errors
/// Where a letter cannot be printed, or all of it does not fit on one side.
pub fn card(report: &SolveReport, size: CardSize) -> Result<PrintSheet, NotPrinted> {
    on_paper(report.product(), &words::card(report), size)
}

/// The card of a drink for the bar, with what it costs or without.
///
/// # Errors
/// Where a letter cannot be printed, or all of it does not fit on one side.
pub fn glass(report: &ServeReport, with_cost: bool, size: CardSize) -> Result<PrintSheet, NotPrinted> {
    on_paper(report.product(), &of_glass(report, with_cost), size)
}

fn on_paper(product: &str, said: &[PaperPara], size: CardSize) -> Result<PrintSheet, NotPrinted> {
    let [width, height] = size.size();
    let mut points = LARGEST_PT;
    loop {
        let mut column = Column::new([MARGIN, MARGIN], width - 2.0 * MARGIN);
        for said in said {
            column.put(&para(said, points)?);
        }
        if column.top <= height - MARGIN {
            let title = super::printable(&format!("Card: {product}"))?;
            let page = [width, height];
            return Ok(PrintSheet { title, size: page, picture: [0.0, 0.0, width, height], pages: vec![column.boxes] });
        }
        if points <= SMALLEST_PT {
            return Err(NotPrinted::NoRoom);
        }
        points = (points * STEP).max(SMALLEST_PT);
    }
}

fn para(said: &PaperPara, points: f64) -> Result<Para, NotPrinted> {
    let larger = match said.kind {
        SaidKind::Stop => STOP,
        SaidKind::Title => TITLE,
        SaidKind::Date => DATE,
        _ => 1.0,
    };
    let mut para = Para::new(&said.lead, &said.words, points * larger)?;
    para.tick = said.kind == SaidKind::Step;
    // a share of the letters' size in mm: near to what belongs together, further from what begins anew (ours)
    para.above = points
        * match said.kind {
            SaidKind::Head | SaidKind::Date | SaidKind::Allergens => 0.15,
            SaidKind::Step => 0.06,
            _ => 0.02,
        };
    Ok(para)
}
