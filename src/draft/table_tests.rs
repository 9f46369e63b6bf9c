//! Spreadsheets of torques: invented rows in the forms that spreadsheet programs write.

use super::*;
use proptest::prelude::*;

fn text(csv: &str) -> String {
    let mut out = String::new();
    read_torques(csv.as_bytes(), "torques.csv").unwrap_or_else(|error| panic!("{}", error.message())).write(&mut out);
    out
}

#[test]
fn a_clear_table_becomes_values() {
    let out = text("Fastener,Qty,Thread,Class,Torque,Unit,Source,Page\nCap bolt,4,M8 x 1.25,8.8,24,N·m,Service book,41\n\"Drain plug, lower\",1,1/4-20 UNC,,60-70,in-lb,Service book,42\n");
    for line in ["  cap-bolt:", "    name: 'Cap bolt'", "    count: 4", "    thread: M8x1.25", "    class: 8.8", "    torque: 24 N·m", "    source: service-book-41", "  drain-plug-lower:", "    torque: 60-70 in-lb"] {
        assert!(out.lines().any(|have| have.split(" #").next().unwrap().trim_end() == line), "{line}\n{out}");
    }
    assert!(out.contains("service-book-41: {title: 'Service book', kind: '?', page: '41'}"), "{out}");
}

#[test]
fn a_value_without_a_unit_is_a_hole_with_its_likely_meanings() {
    let out = text("Bolt;Torque\nCap bolt;22\n");
    let line = out.lines().find(|line| line.contains("torque:")).unwrap();
    // 22 lbf·ft = 29.8 N·m, 22 lbf·in = 2.49 N·m (NIST SP 811).
    assert!(line.contains("'? 22 – ") && line.contains("22 lbf·ft = 29.8 N·m") && line.contains("22 lbf·in = 2.49 N·m"), "{line}");
}

#[test]
fn a_decimal_comma_is_recognised_and_asked_about() {
    let out = text("Bolt;Thread;Torque (Nm)\nCap bolt;M8x1,25;22,5\n");
    let line = out.lines().find(|line| line.contains("torque:")).unwrap();
    assert!(line.contains("'? 22,5 N·m") && line.contains("22.5 N·m"), "{line}");
    assert!(out.contains("thread: M8x1.25"), "{out}");
}

#[test]
fn two_columns_of_torque_must_agree() {
    assert!(text("Bolt,Torque (N·m),Torque (lbf·ft)\na,24,17.7\n").contains("torque: 24 N·m (17.7 lbf·ft)"));
    let out = text("Bolt,Torque (N·m),Torque (lbf·ft)\na,24,24\n");
    assert!(out.contains("torque: '? 24 N·m and 24 lbf·ft – they do not agree"), "{out}");
    for (row, hole) in [("Bolt,Torque (N·m),Unit\na,24,lbf·ft\n", "'? 24 lbf·ft N·m"), ("Bolt,Torque,Unit\na,24 N·m,lbf·ft\n", "'? 24 N·m lbf·ft")] {
        assert!(text(row).contains(hole), "{}", text(row));
    }
    assert!(text("Bolt,Torque,Unit\na,24 Nm,N·m\n").contains("torque: 24 Nm"));
    assert!(text("Bolt,Min,Max,Unit\na,20,25,N·m\n").contains("torque: 20–25 N·m"));
}

#[test]
fn nothing_is_dropped() {
    let out = text("Name,Torque,Unit,Colour,,Thread\nCap,24,N·m,blue,odd,M8,extra\n,9 lbs,,,,\n");
    for words in ["column ‘Colour’: blue", "column 5: odd", "cell 7 beyond the headings: extra", "'? M8 – ", "line-3:", "'? 9 lbs – "] {
        assert!(out.contains(words), "{words}\n{out}");
    }
}

#[test]
fn what_is_no_table_is_told() {
    assert_eq!(read_torques(b"", "a.csv"), Err(TableError::NoRows));
    assert_eq!(read_torques(b"Bolt,Torque\n", "a.csv"), Err(TableError::NoRows));
    assert!(matches!(read_torques(b"a,b\n1,2\n", "a.csv"), Err(TableError::NoTorques(seen)) if seen == ["a", "b"]));
    assert_eq!(read_torques(b"Bolt,Torque\n\xff", "a.csv"), Err(TableError::NotUtf8(12)));
    assert!(matches!(read_torques(format!("Bolt,Torque\n{}", "a,1\n".repeat(MOST_ROWS + 1)).as_bytes(), "a.csv"), Err(TableError::TooMany(_))));
    assert!(matches!(read_torques(&vec![b'a'; MOST_BYTES + 1], "a.csv"), Err(TableError::TooLarge(_))));
}

proptest! {
    #[test]
    fn every_cell_is_found_again(cells in prop::collection::vec("[a-z0-9,.]{1,12}", 6)) {
        let rows = format!("Fastener;Thread;Torque;Unit;Source;Whatever\n{}\n", cells.join(";"));
        let out = text(&rows);
        for cell in &cells {
            prop_assert!(out.contains(cell.as_str()), "{cell} in\n{out}");
        }
    }

    #[test]
    fn no_bytes_make_it_fail(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let mut all = b"Bolt,Torque,Unit,Thread\n".to_vec();
        all.extend(bytes);
        if let Ok(table) = read_torques(&all, "a.csv") {
            let mut out = String::new();
            table.write(&mut out);
            let read: Result<serde_json::Value, _> = serde_yaml::from_str(&out);
            prop_assert!(read.is_ok(), "{out}");
        }
    }
}
