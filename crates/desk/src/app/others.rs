//! The job on top and others: on one quotation with it, or much like it.

use std::sync::Arc;

use quillbore_job::life::{self, State};
use quillbore_job::{Field, Paper};
use quillbore_office::digest::{Summary, Wanted as LikeWanted, similar};

use super::{App, OpenJob};
use crate::desk::Errand;

impl App {
    /// The other jobs on the desk that may stand on one quotation with the job on top: saved
    /// inquiries of the same customer.
    pub(super) fn together(&self) -> Vec<usize> {
        let customer = |at: usize| {
            self.jobs[at]
                .desk
                .job()
                .text(Field::Customer)
                .trim()
                .to_lowercase()
        };
        let fits = |at: &usize| {
            let desk = &self.jobs[*at].desk;
            *at != self.at
                && !customer(self.at).is_empty()
                && customer(*at) == customer(self.at)
                && desk.opened.is_some()
                && life::state(desk.job()) == State::Inquiry
        };
        (0..self.jobs.len()).filter(fits).collect()
    }

    /// One quotation of the job on top and the other open inquiries of its customer; each of them
    /// knows of it.
    pub(super) fn issue_together(&mut self) {
        let sheet = self.sheet();
        let others: Vec<_> = self
            .together()
            .into_iter()
            .map(|at| (self.jobs[at].id, self.jobs[at].desk.seen()))
            .collect();
        self.joint = others
            .iter()
            .map(|(id, seen)| (*id, Arc::clone(&seen.job)))
            .collect();
        self.desk_mut().wants(Errand::Issue {
            paper: Paper::Quotation,
            sheet,
            others: others.into_iter().map(|(_, seen)| seen).collect(),
        });
    }

    /// Looks what comes first on the machine of the job on top.
    pub(super) fn look_first(&mut self) {
        let (version, index) = (self.list.version, Arc::clone(&self.list.index));
        self.desk_mut().look_first(version, &index.lines);
    }

    /// Looks for similar jobs when the job or the shelf is another than when it was done last.
    pub(super) fn look_alike(&mut self) {
        let version = self.list.version;
        let index = Arc::clone(&self.list.index);
        let OpenJob { desk, view, .. } = &mut self.jobs[self.at];
        let now = (desk.history.state(), version);
        if view.alike.as_ref().is_some_and(|a| (a.0, a.1) == now) {
            return;
        }
        let summary = Summary::of(desk.job());
        let tables = &desk.shop.tables;
        let family_of = |name: &str| {
            let at = desk.shop.material(name)?;
            Some((at, at.of(&tables.materials)?.family))
        };
        let own = family_of(desk.job().text(Field::Material));
        let wanted = LikeWanted {
            number: &summary.number,
            family: own.map(|(_, family)| family),
            material: own.map(|(at, _)| at),
            size_mm: summary.size_mm,
            depth_mm: summary.depth_mm,
            quantity: summary.quantity,
        };
        const MOST: usize = 4;
        let found = similar(&index, &wanted, &family_of, MOST);
        view.alike = Some((now.0, now.1, found));
    }
}
