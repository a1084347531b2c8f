package clinic.stimshelf.recall;

import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.pads.GivenPacks;
import clinic.stimshelf.pads.PadSetView;
import clinic.stimshelf.pads.PadSets;
import clinic.stimshelf.pads.PadStock;
import clinic.stimshelf.people.ConsentKind;
import clinic.stimshelf.people.ConsentView;
import clinic.stimshelf.people.Consents;
import clinic.stimshelf.program.ProgramView;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.recall.Frozen.Line;
import clinic.stimshelf.recall.Frozen.Part;
import clinic.stimshelf.shelf.HistoryLine;
import clinic.stimshelf.shelf.KitItemView;
import clinic.stimshelf.shelf.UnitHistories;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** Writes down how unit, kit, pads, settings and papers stand. */
@ApplicationScoped
class Freezing {
  /**
   * As far back as somebody who inquires looks first; the whole history stays on the unit's page.
   */
  private static final int HISTORY = 20;

  @Inject UnitHistories histories;
  @Inject PadSets sets;
  @Inject PadStock stock;
  @Inject Consents consents;
  @Inject Programs programs;
  @Inject Clock clock;

  Frozen take(IncidentScene.Found found, ZoneId zone) {
    List<Part> parts = new ArrayList<>();
    UnitView unit = found.unit();
    LoanView loan = found.loan();
    if (unit != null) {
      parts.add(unit(unit, zone));
      parts.add(kit(unit, loan));
      parts.add(history(unit, zone));
    }
    if (loan != null) {
      parts.add(loan(loan, zone));
    }
    if (found.patient() != null) {
      Long patient = found.patient().id();
      ProgramView program =
          loan == null
              ? programs.ofPatient(patient).stream()
                  .filter(one -> one.signedVersion() != null)
                  .findFirst()
                  .map(one -> programs.byId(one.id(), one.signedVersion()))
                  .orElse(null)
              : programs.byId(Long.valueOf(loan.programId()), loan.programVersion());
      parts.add(pads(patient, loan));
      if (program != null) {
        parts.add(settings(program, zone));
        parts.add(instructions(program));
      }
      parts.add(agreement(patient, program, zone));
    }
    return new Frozen(clock.instant(), parts);
  }

  private static Part unit(UnitView unit, ZoneId zone) {
    Lines lines = new Lines();
    lines.add("Tag", unit.tag());
    lines.add("Serial number", unit.serial());
    lines.add("Kind", unit.kindName() + " (" + unit.kind() + ")");
    lines.add("Channels", unit.channels());
    lines.add("Connector", unit.connector());
    lines.add("Output shown in", unit.output().words());
    lines.add("Location", unit.location());
    lines.add("State", unit.state().words() + reason(unit.stateReason()));
    lines.add("Use counter", unit.useCounter() == null ? "none, or never read" : unit.useCounter());
    lines.add(
        "Next safety test", unit.nextTestOn() == null ? "none counts" : day(unit.nextTestOn()));
    lines.add("Last charged", unit.chargedAt() == null ? null : at(unit.chargedAt(), zone));
    lines.add("Acquired", unit.acquiredOn() == null ? null : day(unit.acquiredOn()));
    return new Part("Unit", lines.all);
  }

  private static Part kit(UnitView unit, LoanView loan) {
    Lines lines = new Lines();
    if (loan != null) {
      for (LoanView.PartView part : loan.parts()) {
        lines.add(
            part.words(),
            (part.wentAlong() ? "went along" : "did not go along")
                + (part.cameBack() == null ? "" : ", came back " + part.cameBack().word()));
      }
    }
    if (lines.all.isEmpty()) {
      for (KitItemView item : unit.contents()) {
        lines.add(
            item.tag() == null ? item.name() : item.name() + " " + item.tag(),
            item.present() ? "present" : "missing");
      }
    }
    return new Part("Leads and kit", lines.all);
  }

  private Part history(UnitView unit, ZoneId zone) {
    Lines lines = new Lines();
    histories.of(unit.tag()).lines().stream()
        .limit(HISTORY)
        .forEach(
            (HistoryLine line) -> lines.add(at(line.at(), zone), line.words() + by(line.by())));
    return new Part("What the unit had been through, newest first", lines.all);
  }

  private static Part loan(LoanView loan, ZoneId zone) {
    Lines lines = new Lines();
    lines.add("Loan", loan.id());
    lines.add("Checked out", at(loan.checkedOutAt(), zone));
    lines.add("Due", day(loan.dueOn()));
    lines.add("Returned", loan.returnedAt() == null ? "not yet" : at(loan.returnedAt(), zone));
    lines.add("Follows program", loan.programId() + ", version " + loan.programVersion());
    for (LoanView.ChangeView change : loan.changes()) {
      lines.add(
          at(change.at(), zone),
          change.kind().word()
              + (change.fromUnit() == null
                  ? ""
                  : ", unit " + change.fromUnit() + " → " + change.toUnit())
              + (change.fromDue() == null
                  ? ""
                  : ", due " + day(change.fromDue()) + " → " + day(change.toDue()))
              + reason(change.reason()));
    }
    return new Part("Loan", lines.all);
  }

  private Part pads(Long patientId, LoanView loan) {
    Lines lines = new Lines();
    for (PadSetView set : sets.forPatient(patientId)) {
      if (set.open()) {
        lines.add(
            "Set in use: " + set.code(),
            "lot "
                + (set.lot() == null ? "unknown" : set.lot())
                + ", "
                + set.pads()
                + " pads"
                + (set.placement() == null ? "" : ", " + set.placement())
                + ", opened "
                + day(set.openedOn())
                + (set.openingAssumed() ? " (taken as opened)" : "")
                + ", sessions "
                + set.usesWords()
                + ", may be used until "
                + day(set.lastUsableOn()));
      }
    }
    if (loan != null) {
      for (GivenPacks given : stock.givenWith(Long.valueOf(loan.id()))) {
        lines.add("Packs given: " + given.code(), given.packs() + " of lot " + given.lot());
      }
    }
    return new Part("Pads", lines.all);
  }

  private static Part settings(ProgramView program, ZoneId zone) {
    Lines lines = new Lines();
    lines.add("Program", program.id() + ", version " + program.version());
    lines.add("Template", program.template());
    lines.add("Setting on the unit", program.setting());
    for (ProgramView.Confirmation seen : program.settings()) {
      lines.add(
          "Setting seen",
          "unit "
              + seen.unitTag()
              + ", version "
              + seen.version()
              + ", "
              + seen.setting()
              + ", "
              + at(seen.at(), zone)
              + by(seen.by()));
    }
    for (ProgramView.PlacementView place : program.placements()) {
      lines.add("Where", place.words() + (place.where() == null ? "" : ": " + place.where()));
    }
    lines.add("On", unit(program.onSeconds(), "s"));
    lines.add("Off", unit(program.offSeconds(), "s"));
    lines.add("Ramp up", unit(program.rampUpSeconds(), "s"));
    lines.add("Ramp down", unit(program.rampDownSeconds(), "s"));
    lines.add("Contractions", program.contractions());
    lines.add("Minutes", program.minutes());
    lines.add("Frequency", unit(program.frequencyHz(), "Hz"));
    lines.add("Pulse width", unit(program.pulseWidthUs(), "µs"));
    lines.add("Intensity", program.intensity());
    lines.add("Limit", unit(program.limitMa(), "mA"));
    lines.add("Sessions a day", program.sessionsPerDay());
    lines.add("Weeks", program.weeks());
    lines.add(
        "Pads at once",
        program.pads().stream()
            .map(pad -> pad.perSession() + " " + pad.code())
            .collect(Collectors.joining(", ")));
    return new Part("Settings as given", lines.all);
  }

  private static Part instructions(ProgramView program) {
    Lines lines = new Lines();
    lines.add("Version of the program", program.version());
    lines.add("Instructions", program.instructions());
    lines.add("Cautions", program.cautions());
    return new Part("Home instructions as given", lines.all);
  }

  private Part agreement(Long patientId, ProgramView program, ZoneId zone) {
    Lines lines = new Lines();
    for (ConsentView one : consents.of(patientId)) {
      boolean about = one.kind() == ConsentKind.LOAN || one.kind() == ConsentKind.TREATMENT;
      if (about
          && (program == null || one.programId() == null || one.programId().equals(program.id()))) {
        lines.add(
            one.kind().words(),
            (one.given() ? "agreed" : "refused")
                + ", text "
                + one.textVersion()
                + ", language "
                + one.language()
                + ", signed by "
                + one.relation()
                + " on "
                + at(one.signedAt(), zone));
      }
    }
    return new Part("Agreements", lines.all);
  }

  private static String unit(Object number, String unit) {
    return number == null ? null : number + " " + unit;
  }

  private static String by(String who) {
    return who == null ? "" : ", " + who;
  }

  private static String reason(String words) {
    return words == null ? "" : ": " + words;
  }

  private static String day(LocalDate day) {
    return Days.full(day);
  }

  private static String at(Instant at, ZoneId zone) {
    return Days.at(at, zone);
  }

  /** Lines of a part; what is blank is left out. */
  private static final class Lines {
    private final List<Line> all = new ArrayList<>();

    private void add(String label, Object value) {
      if (value != null && !value.toString().isBlank()) {
        all.add(new Line(label, value.toString()));
      }
    }
  }
}
