//! Findings that the site has switched off are taken out of a delivery, and counted.

use super::Delivery;
use crate::judge;
use crate::site::Site;

/// Takes them out, and says so on the delivery.
pub(super) fn take_out(delivery: &mut Delivery, site: &Site) {
    let lines = delivery.lines.iter_mut().map(|line| &mut line.findings);
    let packages = delivery.packages.iter_mut();
    let packages = packages.map(|package| &mut package.findings);
    for findings in lines.chain(packages).chain([&mut delivery.findings]) {
        judge::take_off(findings, site, &mut delivery.off);
    }
    delivery
        .findings
        .extend(judge::silenced(&delivery.off, site));
}
