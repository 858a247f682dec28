//! A label: the largest letters that fit, and more labels where none do. Everything that is said stands on one of them.

use crate::render::sheet::label as words;
use crate::render::sheet::{PaperPara, SaidKind};
use crate::report::label::LabelView;

use super::code::Code2d;
use super::layout::{Column, Para, PrintBox, PrintInk, PrintSheet, SMALLEST_PT, Setting, points_of};
use super::stock::{LabelPaper, LabelSize};
use super::svg::DOTS_PER_MM;
use super::{NotPrinted, STROKE_MM};

/// How labels are printed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LabelJob {
    /// On which paper.
    pub size: LabelSize,
    /// How many of them.
    pub copies: usize,
    /// The place of the first on a sheet that has been begun, from 0.
    pub start: usize,
    /// By how much the printer is off: to the right and down, mm.
    pub offset: [f64; 2],
}

/// Each step to smaller letters (ours).
const STEP: f64 = 0.96;
/// The smallest letters of a name, points: larger than all others (ours).
const SMALLEST_NAME_PT: f64 = 9.0;
/// The lines that a name may have (ours).
const NAME_LINES: usize = 3;
/// The date against the name and the rest against the date at their most, and the rest against the name (ours).
const DATE: f64 = 0.8;
const REST: f64 = 0.5;
/// Letters of the line at the foot at their most, points for a millimetre of its height (ours).
const FOOT_PT: f64 = 1.2;
/// More labels than this for one container are no labels (ours).
const MOST: usize = 4;

/// The labels of a view.
///
/// # Errors
/// Where a letter cannot be printed, or what must stand on it does not fit on a few labels.
pub fn label(view: &LabelView, job: LabelJob) -> Result<PrintSheet, NotPrinted> {
    let paper = job.size.paper();
    let faces = Labeller { view, paper: &paper, said: words::label(view) }.faces()?;
    let per_page = paper.places.len();
    let mut pages: Vec<Vec<PrintBox>> = Vec::new();
    for (n, face) in (0..job.copies).flat_map(|_| &faces).enumerate() {
        let place = job.start % per_page + n;
        if pages.is_empty() || (place.is_multiple_of(per_page) && n > 0) {
            pages.push(Vec::new());
        }
        let [x, y] = paper.places[place % per_page];
        let by = [x + job.offset[0], y + job.offset[1]];
        if let Some(page) = pages.last_mut() {
            page.extend(face.iter().cloned().map(|thing| thing.moved(by)));
        }
    }
    let title = format!("Label: {}", super::printable(&view.product)?);
    Ok(PrintSheet { title, size: paper.page, picture: paper.picture, pages })
}

struct Labeller<'a> {
    view: &'a LabelView,
    paper: &'a LabelPaper,
    said: Vec<PaperPara>,
}

/// Which of several labels, and how many.
#[derive(Clone, Copy)]
struct Turn {
    number: usize,
    of: usize,
}

impl Labeller<'_> {
    fn faces(&self) -> Result<Vec<Vec<PrintBox>>, NotPrinted> {
        let all: Vec<&PaperPara> = self.said.iter().collect();
        let mut name_pt = self.paper.name_pt;
        while name_pt >= SMALLEST_NAME_PT {
            if let Some(face) = self.face(&all, name_pt, false, None)? {
                return Ok(vec![face]);
            }
            name_pt *= STEP;
        }
        if let Some(face) = self.face(&all, SMALLEST_NAME_PT, true, None)? {
            return Ok(vec![face]);
        }
        for (of, shortened) in (2..=MOST).flat_map(|of| [(of, false), (of, true)]) {
            let mut name_pt = if shortened { SMALLEST_NAME_PT } else { self.paper.name_pt };
            while name_pt >= SMALLEST_NAME_PT {
                if let Some(faces) = self.several(&all, name_pt, shortened, of)? {
                    return Ok(faces);
                }
                name_pt *= STEP;
            }
        }
        Err(NotPrinted::NoRoom)
    }

    /// The same on so many labels: name, lot and date on the first, the rest wherever there is room, notes last.
    fn several(
        &self,
        all: &[&PaperPara],
        name_pt: f64,
        shortened: bool,
        of: usize,
    ) -> Result<Option<Vec<Vec<PrintBox>>>, NotPrinted> {
        let heads = |kind| matches!(kind, SaidKind::Title | SaidKind::Lot);
        let is_note = |said: &&PaperPara| said.kind == SaidKind::Note;
        let mut left: Vec<&PaperPara> =
            all.iter().copied().filter(|s| !heads(s.kind) && s.kind != SaidKind::Date).collect();
        left.sort_by_key(is_note);
        let mut faces = Vec::new();
        for number in 1..=of {
            let turn = Some(Turn { number, of });
            let set = |said: &[&PaperPara]| match number {
                1 => self.face(said, name_pt, shortened, turn),
                _ => self.face(said, SMALLEST_NAME_PT, true, turn),
            };
            let on_it = |said: &&PaperPara| heads(said.kind) || (number == 1 && said.kind == SaidKind::Date);
            let mut chosen: Vec<&PaperPara> = all.iter().copied().filter(on_it).collect();
            let Some(mut face) = set(&chosen)? else { return Ok(None) };
            let mut later = Vec::new();
            for said in left {
                let mut more = chosen.clone();
                more.push(said);
                more.sort_by_key(|said| all.iter().position(|of| std::ptr::eq(*of, *said)));
                match set(&more)? {
                    Some(fits) => (chosen, face) = (more, fits),
                    None => later.push(said),
                }
            }
            left = later;
            faces.push(face);
        }
        Ok(Some(faces).filter(|_| left.is_empty()))
    }

    /// One label with letters of these sizes; `None` where it does not fit.
    fn face(
        &self,
        said: &[&PaperPara],
        name_pt: f64,
        shortened: bool,
        turn: Option<Turn>,
    ) -> Result<Option<Vec<PrintBox>>, NotPrinted> {
        let [width, height] = self.paper.room;
        let mut column = Column::new([0.0, 0.0], width);
        let first = turn.is_none_or(|turn| turn.number == 1);
        let code = self.code().filter(|_| first);
        if let Some(code) = code.as_ref().filter(|_| !self.paper.code_below) {
            column.corner = [code.width, code.height];
        }
        let date_pt = self.date_pt(name_pt, width - column.corner[0]);
        let rest_pt = (name_pt * REST).min(date_pt * DATE).max(SMALLEST_PT);
        for said in said {
            let points = match said.kind {
                SaidKind::Title => name_pt,
                SaidKind::Date => date_pt,
                _ => said.least_mm.map_or(rest_pt, |mm| points_of(mm).max(rest_pt)),
            };
            let lead = match (said.kind, turn) {
                (SaidKind::Lot, Some(Turn { number, of })) => format!("{} · label {number} of {of}", said.lead),
                _ => said.lead.clone(),
            };
            let mut para = Para::new(&lead, &said.words, points)?;
            para.above = if column.boxes.is_empty() { 0.0 } else { self.paper.foot * 0.06 };
            let is_name = said.kind == SaidKind::Title;
            if is_name && shortened {
                para = para.shortened(width - column.corner[0]);
            }
            let lines = column.put(&para);
            if is_name && lines > NAME_LINES {
                return Ok(None);
            }
        }
        let foot = if first { self.paper.foot } else { 0.0 };
        // words end above the line at the foot, and above a code that lies there
        let below = code.as_ref().filter(|_| self.paper.code_below).map_or(0.0, |code| code.height);
        if column.top.max(column.corner[1]) > height - foot - below {
            return Ok(None);
        }
        column.boxes.extend(code);
        if first {
            column.boxes.extend(self.foot(rest_pt));
        }
        Ok(Some(column.boxes))
    }

    /// To the right, in the upper corner or above the foot, on whole dots.
    fn code(&self) -> Option<PrintBox> {
        let [width, height] = self.paper.room;
        let code = Code2d::of(&words::code(self.view)?)?;
        let side = code.with_border() as f64 * self.paper.module_dots / DOTS_PER_MM;
        let y = if self.paper.code_below { height - self.paper.foot - side } else { 0.0 };
        Some(PrintBox { x: width - side, y, width: side, height: side, ink: PrintInk::Code(code) })
    }

    /// The size of the date: smaller than the name, and on one line, for a day that is broken is not read at once.
    fn date_pt(&self, name_pt: f64, room: f64) -> f64 {
        let date = self.said.iter().find(|said| said.kind == SaidKind::Date);
        let one_line = date.map_or(name_pt, |said| room / Setting::bold(1.0).width(&said.lead));
        (name_pt * DATE).min(one_line * 0.999).max(SMALLEST_PT)
    }

    /// What is written by hand: when it was opened, and whose hand it was.
    fn foot(&self, points: f64) -> Vec<PrintBox> {
        let [width, height] = self.paper.room;
        let set = Setting::plain(points.min(self.paper.foot * FOOT_PT).max(SMALLEST_PT));
        let (frame, gap) = (self.paper.foot * 3.0, self.paper.foot * 0.25);
        let text = height - self.paper.foot + (self.paper.foot - set.line()) / 2.0;
        let frame_at = width - frame;
        let initials = "initials";
        let initials_at = frame_at - gap - set.width(initials);
        let (opened, day) = words::opened(self.view);
        let mut boxes = vec![set.words(opened.to_owned(), [0.0, text], true)];
        let from = set.width(opened) + gap;
        match day {
            Some(day) => boxes.push(set.words(day, [from, text], false)),
            None => boxes.push(PrintBox {
                x: from,
                y: text + set.line() - STROKE_MM,
                width: initials_at - gap - from,
                height: STROKE_MM,
                ink: PrintInk::Line,
            }),
        }
        boxes.push(set.words(initials.to_owned(), [initials_at, text], true));
        let y = height - self.paper.foot + STROKE_MM;
        let ink = PrintInk::Frame;
        boxes.push(PrintBox { x: frame_at, y, width: frame, height: self.paper.foot - STROKE_MM, ink });
        boxes
    }
}
