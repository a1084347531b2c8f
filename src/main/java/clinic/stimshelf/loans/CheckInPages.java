package clinic.stimshelf.loans;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.pads.GivenPacks;
import clinic.stimshelf.pads.PackLine;
import clinic.stimshelf.pads.PadOutcome;
import clinic.stimshelf.pads.PadSetView;
import clinic.stimshelf.pads.PadSets;
import clinic.stimshelf.pads.PadStock;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.Soiling;
import clinic.stimshelf.shelf.UnitTags;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** The page on which a unit comes home, whoever brings it. */
@Path("/check-in")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class CheckInPages {
  @Inject UnitTags tags;
  @Inject CheckIn checkIn;
  @Inject Loans loans;
  @Inject Shelf shelf;
  @Inject Patients patients;
  @Inject PadStock stock;
  @Inject PadSets padSets;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  @CheckedTemplate(basePath = "loans", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record CheckInPage(
      LoanView loan,
      PatientView patient,
      UnitView unit,
      Form form,
      List<PartRow> parts,
      List<Option> cameBack,
      List<SetRow> sets,
      List<Option> outcomes,
      List<GivenPacks> sealed,
      boolean sealedAllowed,
      List<Option> troubles,
      List<Option> soilings,
      String here,
      LocalDate today,
      ZoneId zone,
      List<Reason> refused)
      implements TemplateInstance {}

  /** A part that went along, and what is chosen for it. */
  record PartRow(String id, String words, boolean wentAlong, String chosen) {}

  /** A pad set in use, and what is chosen for it. */
  record SetRow(PadSetView set, String chosen) {}

  @CheckedTemplate(basePath = "loans", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record NotOut(UnitView unit) implements TemplateInstance {}

  /** By the unit's tag: the loan it really belongs to, whoever brought it. */
  @GET
  public TemplateInstance byUnit(@QueryParam("unit") String tag) {
    UnitView unit = tags.unit(tag == null ? "" : tag);
    return loans
        .openOf(unit.id())
        .<TemplateInstance>map(loan -> page(loan, Form.empty(), List.of()))
        .orElseGet(() -> new NotOut(unit));
  }

  @GET
  @Path("/{loan}")
  public TemplateInstance byLoan(@PathParam("loan") String loan) {
    return page(loans.byId(Ids.of(loan, "loan")), Form.empty(), List.of());
  }

  @POST
  @Path("/{loan}")
  @Retried
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response act(@PathParam("loan") String id, MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    Long loan = Ids.of(id, "loan");
    try {
      CheckInOrder order = order(form, loans.byId(loan));
      form.throwIfWrong();
      checkIn.checkIn(loan, order);
      // Who takes a unit in for another location may not see that location's loans.
      return Response.seeOther(
              URI.create(
                  signedIn.mayActAt(loans.locationOf(loan))
                      ? "/loans/" + loan + "?done=in"
                      : "/front-desk?done=taken-in"))
          .build();
    } catch (Refusal refusal) {
      return Response.ok(page(loans.byId(loan), form, refusal.reasons())).build();
    }
  }

  private TemplateInstance page(LoanView loan, Form form, List<Reason> refused) {
    Long patientId = Long.valueOf(loan.patientId());
    Long locationId = locations.byCode(loan.location()).id();
    Long here = here(form, locationId);
    return new CheckInPage(
        loan,
        patients.byId(patientId),
        shelf.byTag(loan.unitTag()),
        form,
        loan.parts().stream()
            .map(
                part ->
                    new PartRow(
                        part.id(),
                        part.words(),
                        part.wentAlong(),
                        chosen(form, "part-" + part.id(), CameBack.PRESENT.word())))
            .toList(),
        Arrays.stream(CameBack.values())
            .map(word -> new Option(word.word(), word.words()))
            .toList(),
        padSets.inUse(patientId, Long.valueOf(loan.programId())).stream()
            .map(
                set ->
                    new SetRow(set, chosen(form, "set-" + set.id(), PadOutcome.STILL_GOOD.word())))
            .toList(),
        Arrays.stream(PadOutcome.values())
            .map(outcome -> new Option(outcome.word(), outcome.words()))
            .toList(),
        stock.givenWith(Long.valueOf(loan.id())),
        locations.settings(here).yes(Setting.SEALED_PACKS_RETURN),
        Arrays.stream(Trouble.values())
            .filter(trouble -> trouble != Trouble.SOILED)
            .map(trouble -> new Option(trouble.word(), trouble.words()))
            .toList(),
        Arrays.stream(Soiling.values())
            .map(s -> new Option("soiling-" + s.word(), s.words()))
            .toList(),
        locations.byId(here).code(),
        locations.today(locationId),
        locations.zone(here),
        refused);
  }

  /** The location the unit came to: the one the page was opened at. */
  private Long here(Form form, Long lentBy) {
    if (form.has("here")) {
      return locations.byCode(form.value("here")).id();
    }
    return signedIn.locationId() == null ? lentBy : signedIn.locationId();
  }

  private static String chosen(Form form, String name, String otherwise) {
    return form.has(name) ? form.value(name) : otherwise;
  }

  private CheckInOrder order(Form form, LoanView loan) {
    Map<Long, CameBack> parts = new HashMap<>();
    for (LoanView.PartView part : loan.parts()) {
      if (part.wentAlong() && form.has("part-" + part.id())) {
        form.read(
            "part-" + part.id(),
            word -> parts.put(Long.valueOf(part.id()), CameBack.of(word)),
            was -> true,
            "A part is present, owed or damaged.");
        parts.putIfAbsent(Long.valueOf(part.id()), CameBack.PRESENT);
      }
    }
    Map<Long, PadOutcome> sets = new HashMap<>();
    List<PackLine> sealed = new ArrayList<>();
    for (String name : form.names()) {
      if (name.matches("set-\\d+") && form.has(name)) {
        sets.put(Long.valueOf(name.substring(4)), PadOutcome.of(form.value(name)));
      } else if (name.matches("sealed-\\d+") && form.value(name).matches("[1-9]\\d{0,2}")) {
        sealed.add(
            new PackLine(
                Long.valueOf(name.substring(7)), Integer.parseInt(form.value(name)), null));
      }
    }
    LocalDateTime happened = form.optionalDayAndTime("happened-at", "The time");
    Long here = here(form, locations.byCode(loan.location()).id());
    return new CheckInOrder(
        parts,
        form.has("trouble") ? Trouble.of(form.value("trouble")) : null,
        form.optionalText("trouble-words", "The trouble", 300),
        sealed,
        sets,
        Arrays.stream(Soiling.values())
            .filter(one -> form.ticked("soiling-" + one.word()))
            .collect(Collectors.toSet()),
        form.optionalWhole("use-counter", "The counter", 0, 1_000_000),
        locations.byId(here).code(),
        form.optionalText("note", "The note", 500),
        happened == null ? null : happened.atZone(locations.zone(here)).toInstant(),
        form.optionalText("late-reason", "The reason", 500));
  }
}
