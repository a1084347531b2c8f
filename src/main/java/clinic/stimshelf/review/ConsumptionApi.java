package clinic.stimshelf.review;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.calc.consumption.Cause;
import clinic.stimshelf.calc.consumption.Statement;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Roles;
import com.fasterxml.jackson.annotation.JsonFormat;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** Packs used against plan, split into causes. */
@Path("/api/consumption")
@Produces(MediaType.APPLICATION_JSON)
class ConsumptionApi {
  @Inject Consumption consumption;
  @Inject SignedIn signedIn;
  @Inject Locations locations;

  /** A step; all of them sum to the difference. */
  record PartJson(
      String cause,
      BigDecimal packs,
      @JsonFormat(shape = JsonFormat.Shape.STRING) BigDecimal cost) {}

  /** Packs that no program used. */
  record AsideJson(
      String reason, long packs, @JsonFormat(shape = JsonFormat.Shape.STRING) BigDecimal cost) {}

  /** The same difference for one therapist, template, pad type, lot or location. */
  record RowJson(
      String label,
      String code,
      Integer sessions,
      BigDecimal packsPer100Sessions,
      BigDecimal planPacks,
      BigDecimal actualPacks,
      @JsonFormat(shape = JsonFormat.Shape.STRING) BigDecimal planCost,
      @JsonFormat(shape = JsonFormat.Shape.STRING) BigDecimal actualCost,
      List<PartJson> parts) {}

  record TableJson(String by, List<RowJson> rows) {}

  /**
   * @param against plan, before or year-ago; against an earlier period the fields named plan hold
   *     what was used then
   * @param sessionsWithoutEntry planned sessions of which nothing is known; they count as not done
   */
  record ConsumptionJson(
      LocalDate from,
      LocalDate to,
      String against,
      LocalDate againstFrom,
      LocalDate againstTo,
      BigDecimal planPacks,
      BigDecimal actualPacks,
      BigDecimal differencePacks,
      @JsonFormat(shape = JsonFormat.Shape.STRING) BigDecimal planCost,
      @JsonFormat(shape = JsonFormat.Shape.STRING) BigDecimal actualCost,
      @JsonFormat(shape = JsonFormat.Shape.STRING) BigDecimal differenceCost,
      List<PartJson> parts,
      List<AsideJson> drawer,
      List<AsideJson> shelf,
      int sessionsPlanned,
      int sessionsDone,
      int sessionsWithoutEntry,
      BigDecimal packsPer100Sessions,
      int programsCompleted,
      @JsonFormat(shape = JsonFormat.Shape.STRING) BigDecimal costPerCompletedProgram,
      List<TableJson> by) {}

  /**
   * Without days, the last whole quarter.
   *
   * @param from first day
   * @param to last day
   */
  @GET
  @RolesAllowed(Roles.MANAGER)
  public ConsumptionJson of(
      @QueryParam("from") String from,
      @QueryParam("to") String to,
      @QueryParam("against") String against,
      @QueryParam("location") String location) {
    List<Long> where = signedIn.locationsOr(location);
    Period period =
        blank(from) && blank(to)
            ? Period.lastQuarter(locations.today(signedIn.locationOr(location)))
            : new Period(day("from", from), day("to", to));
    return json(consumption.of(where, period, Against.of(against)));
  }

  private static boolean blank(String text) {
    return text == null || text.isBlank();
  }

  private static LocalDate day(String field, String text) {
    try {
      return LocalDate.parse(text == null ? "" : text.strip());
    } catch (DateTimeException notADay) {
      throw new Malformed(
          field,
          blank(text)
              ? "“" + field + "” is missing: a day such as 2026-03-14."
              : "“" + text + "” is not a day such as 2026-03-14.");
    }
  }

  private static ConsumptionJson json(ConsumptionView view) {
    Statement.Column packs = view.total().packs();
    Statement.Column cost = view.total().cost();
    return new ConsumptionJson(
        view.period().from(),
        view.period().to(),
        view.against().word(),
        view.before() == null ? null : view.before().from(),
        view.before() == null ? null : view.before().to(),
        packs.before(),
        packs.now(),
        packs.difference(),
        cost.before(),
        cost.now(),
        cost.difference(),
        parts(view.total()),
        asides(view.drawer()),
        asides(view.shelf()),
        view.now().planned(),
        view.now().done(),
        view.now().noEntry(),
        view.now().packsPer100(),
        view.now().completed(),
        view.now().costPerCompleted(),
        view.by().stream().map(ConsumptionApi::table).toList());
  }

  private static List<PartJson> parts(Statement statement) {
    return Arrays.stream(Cause.values())
        .map(
            cause ->
                new PartJson(
                    cause.name().toLowerCase(Locale.ROOT),
                    statement.packs().part(cause),
                    statement.cost().part(cause)))
        .toList();
  }

  private static List<AsideJson> asides(List<ConsumptionView.Aside> asides) {
    return asides.stream()
        .map(one -> new AsideJson(one.reason(), one.packs(), one.cost()))
        .toList();
  }

  private static TableJson table(ConsumptionView.Table table) {
    return new TableJson(
        table.key(),
        table.rows().stream()
            .map(
                row ->
                    new RowJson(
                        row.label(),
                        row.small(),
                        row.sessions(),
                        row.packsPer100(),
                        row.statement().packs().before(),
                        row.statement().packs().now(),
                        row.statement().cost().before(),
                        row.statement().cost().now(),
                        parts(row.statement())))
            .toList());
  }
}
