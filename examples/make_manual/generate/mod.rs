//! A manual of invented machines, made from archetypes of work. Nothing here reads a clock or the machine it
//! runs on: a number of procedures and a seed decide every byte.

mod book;
mod drawing;
mod machine;
mod page;
mod random;
mod shop;
mod trade;
mod work;

use random::Random;
use std::collections::BTreeMap;

/// Procedures of a full machine.
const PER_MACHINE: usize = 20;

/// The files of a manual by path from its folder.
pub(crate) fn manual(procedures: usize, seed: u64) -> BTreeMap<String, String> {
    let mut random = Random::new(seed);
    let machines = procedures.div_ceil(PER_MACHINE).max(1);
    let mut files = BTreeMap::new();
    let mut abroad = Vec::new();
    for index in 0..machines {
        // The procedures are dealt out evenly, the first machines taking what is left over.
        let count = procedures / machines + usize::from(index < procedures % machines);
        let made = machine::machine(index, count, &abroad, &mut random);
        abroad.extend(made.pages);
        files.extend(made.files);
    }
    let shop = shop::shop(&files);
    files.insert("shop.yaml".to_owned(), shop);
    files.insert("manual.yaml".to_owned(), head(procedures, seed));
    files
}

fn head(procedures: usize, seed: u64) -> String {
    format!(
        "title: Workshop manual of {procedures} procedures, number {seed}\n\
         publisher: The Low Ferry Workshop (invented)\n\
         language: en-GB\n\
         notice: Every machine, maker, person and value in this manual is invented for measuring and testing. Build nothing from it.\n\
         units: {{torque: [N·m, lbf·ft], length: [mm, in], temperature: [°C, °F], volume: [mL, fl oz (US)], pressure: [bar, psi]}}\n\
         paper: A4\n\
         profile: published\n"
    )
}
