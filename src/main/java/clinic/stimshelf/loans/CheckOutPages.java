package clinic.stimshelf.loans;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.loans.CheckOutOrder.Agreement;
import clinic.stimshelf.loans.CheckOutOrder.LeftBehind;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.LotView;
import clinic.stimshelf.pads.Lots;
import clinic.stimshelf.pads.PackLine;
import clinic.stimshelf.people.Means;
import clinic.stimshelf.shelf.KitItemView;
import clinic.stimshelf.shelf.UnitTags;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.NotFound;
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
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** The page on which a unit goes out: everything in one form, by scanner and Enter alone. */
@Path("/check-out")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class CheckOutPages {
  private static final String PACK = "pack-";
  private static final String LEFT = "left-";

  @Inject Lots lots;
  @Inject UnitTags tags;
  @Inject CheckOut checkOut;
  @Inject PackScan packScan;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  @CheckedTemplate(basePath = "loans", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record CheckOutPage(
      CheckOut.Look look,
      Form form,
      List<PackRow> packs,
      List<PartRow> parts,
      List<Option> identifiers,
      String said,
      List<Reason> refused,
      String relationLabel,
      ZoneId zone)
      implements TemplateInstance {}

  /** Packs of a lot that leave. */
  record PackRow(
      Long lotId,
      String code,
      String lot,
      LocalDate expiresOn,
      int packs,
      String reason,
      String why) {}

  /** A part of the kit, and why it stays behind if it does. */
  record PartRow(KitItemView item, boolean along, String reason) {}

  @GET
  public TemplateInstance show(
      @QueryParam("program") String program, @QueryParam("unit") String unit) {
    Form form = Form.empty().prefill("program", program).prefill("unit", unit);
    return page(form, null, List.of());
  }

  @POST
  @Retried
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response act(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    String act = form.value("act");
    if (act.equals("out") && !form.has("scan")) {
      try {
        CheckOutOrder order = order(form);
        form.throwIfWrong();
        Long loan = checkOut.checkOut(order);
        return Response.seeOther(URI.create("/loans/" + loan + "?done=out")).build();
      } catch (Refusal refusal) {
        return again(form, null, refusal.reasons());
      } catch (InUse inUse) {
        return again(
            form, null, List.of(new Reason("unitTag", inUse.getMessage(), "Scan another.")));
      }
    }
    if (act.equals("proposed")) {
      return again(takeProposed(typed, form), "The proposed packs stand below.", List.of());
    }
    return again(form, scanned(typed, form), List.of());
  }

  private Response again(Form form, String said, List<Reason> refused) {
    return Response.ok(page(form, said, refused)).build();
  }

  /** Puts a scanned code where it belongs, whichever field it was scanned into. */
  private String scanned(MultivaluedMap<String, String> typed, Form form) {
    String code = form.value("scan");
    typed.remove("scan");
    if (code.isEmpty()) {
      return null;
    }
    CheckOut.Look look = checkOut.look(order(form));
    Set<String> codes =
        look.program().pads().stream().map(line -> line.code()).collect(Collectors.toSet());
    LotView lot = packScan.find(code, codes, look.program().locationId()).orElse(null);
    if (lot != null) {
      String name = PACK + lot.id();
      int packs = count(form.value(name)) + 1;
      typed.putSingle(name, String.valueOf(packs));
      return "Pack of " + lot.code() + ", lot " + lot.number() + ": " + packs + " now.";
    }
    try {
      UnitView unit = tags.unit(code);
      typed.putSingle("unit", unit.tag());
      return "Kit " + unit.tag() + ".";
    } catch (NotFound neither) {
      return "“" + code + "” is neither a kit nor a pack for this program.";
    }
  }

  private Form takeProposed(MultivaluedMap<String, String> typed, Form form) {
    CheckOut.Look look = checkOut.look(order(form));
    for (PackLine line : look.proposedPacks()) {
      typed.putSingle(PACK + line.lotId(), String.valueOf(line.packs()));
    }
    return Form.of(typed);
  }

  private TemplateInstance page(Form form, String said, List<Reason> refused) {
    CheckOutOrder order = order(form);
    CheckOut.Look look = checkOut.look(order);
    signedIn.requireLocation(look.program().locationId());
    LocalDate today = locations.today(look.program().locationId());
    List<PackRow> packs = new ArrayList<>();
    Map<Long, LotView> found =
        lots.at(look.program().locationId(), order.packs().stream().map(PackLine::lotId).toList());
    for (PackLine line : order.packs()) {
      LotView lot = found.get(line.lotId());
      packs.add(
          new PackRow(
              lot.id(),
              lot.code(),
              lot.number(),
              lot.expiresOn(),
              line.packs(),
              line.laterLotReason(),
              null));
    }
    List<PartRow> parts =
        look.unit() == null
            ? List.of()
            : look.unit().contents().stream()
                .map(
                    item ->
                        new PartRow(
                            item,
                            item.present() && !form.ticked(LEFT + item.id()),
                            form.value(LEFT + item.id() + "-why")))
                .toList();
    form.prefill(
        "relation", look.patient().minorOn(today) ? look.patient().guardianRelation() : "self");
    form.prefill("means", "paper");
    return new CheckOutPage(
        look,
        form,
        packs,
        parts,
        List.of(
            new Option("name,birth-date", "name and birth date"),
            new Option("name,chart-number", "name and chart number"),
            new Option("name,photo-id", "name and photo ID")),
        said,
        refused,
        look.patient().minorOn(today) ? "Relation of the guardian" : "Relation: self, or who",
        locations.zone(look.program().locationId()));
  }

  private CheckOutOrder order(Form form) {
    List<PackLine> packs = new ArrayList<>();
    List<LeftBehind> left = new ArrayList<>();
    Map<String, String> all = new LinkedHashMap<>();
    form.names().forEach(name -> all.put(name, form.value(name)));
    all.forEach(
        (name, value) -> {
          if (name.matches(PACK + "\\d+") && count(value) > 0) {
            String why = form.value(name + "-why");
            packs.add(
                new PackLine(
                    Long.valueOf(name.substring(PACK.length())),
                    count(value),
                    why.isEmpty() ? null : why));
          } else if (name.matches(LEFT + "\\d+") && form.ticked(name)) {
            left.add(
                new LeftBehind(
                    Long.valueOf(name.substring(LEFT.length())), form.value(name + "-why")));
          }
        });
    Agreement agreement =
        form.ticked("agreed")
            ? new Agreement(
                form.value("signer"),
                form.value("relation"),
                Means.of(form.has("means") ? form.value("means") : "paper"),
                form.has("language") ? form.value("language") : "en",
                form.has("text-version") ? form.value("text-version") : AgreementText.VERSION)
            : null;
    LocalDateTime happened = form.optionalDayAndTime("happened-at", "The time");
    return new CheckOutOrder(
        Ids.field("program", form.value("program")),
        form.value("unit"),
        packs,
        Arrays.stream(form.value("identity").split(","))
            .filter(word -> !word.isBlank())
            .map(Identifier::of)
            .collect(Collectors.toSet()),
        left,
        form.optionalText("packs-reason", "The reason", 300),
        agreement,
        form.optionalDay("bring-in-on", "The day"),
        form.optionalWhole("use-counter", "The counter", 0, 1_000_000),
        form.optionalText("note", "The note", 500),
        happened == null || signedIn.locationId() == null
            ? null
            : happened.atZone(locations.zone(signedIn.locationId())).toInstant(),
        form.optionalText("late-reason", "The reason", 500));
  }

  private static int count(String text) {
    return text.matches("\\d{1,3}") ? Integer.parseInt(text) : 0;
  }
}
