package clinic.stimshelf.exchange;

import clinic.stimshelf.people.ConsentKind;
import clinic.stimshelf.people.Consents;
import clinic.stimshelf.people.Means;
import clinic.stimshelf.people.NewConsent;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.List;

/** Consents that were given or refused. */
@ApplicationScoped
class ConsentFile implements FileFormat {
  private static final Column<String> REF = Column.ref();
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION);
  private static final Column<Long> PATIENT = Column.key("patient", Key.PATIENT).required();
  private static final Column<ConsentKind> KIND = Column.word("kind", ConsentKind.class).required();
  private static final Column<Boolean> GIVEN = Column.yesNo("given").required();
  private static final Column<String> TEXT_VERSION = Column.text("text_version", 40).required();
  private static final Column<String> LANGUAGE = Column.text("language", 16);
  private static final Column<String> SIGNER = Column.text("signer", 120).required();
  private static final Column<String> RELATION = Column.text("relation", 60).required();
  private static final Column<Means> MEANS = Column.word("means", Means.class).required();
  private static final Column<Instant> SIGNED_AT = Column.happened("signed_at").required();

  @Inject Consents consents;

  @Override
  public String what() {
    return "consents";
  }

  @Override
  public String title() {
    return "Consents to loans, treatment and messages";
  }

  @Override
  public int order() {
    return 190;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        REF,
        LOCATION,
        PATIENT,
        KIND,
        GIVEN,
        TEXT_VERSION,
        LANGUAGE,
        SIGNER,
        RELATION,
        MEANS,
        SIGNED_AT);
  }

  @Override
  public String taken() {
    return "select coalesce(c.ref, k.mark || '-consent-' || cast(c.id as varchar(20))) from consent c, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    consents.record(
        new NewConsent(
            row.get(REF),
            row.get(PATIENT),
            row.get(KIND),
            null,
            row.get(GIVEN),
            row.get(TEXT_VERSION),
            row.get(LANGUAGE),
            row.get(SIGNER),
            row.get(RELATION),
            row.get(MEANS),
            row.get(SIGNED_AT),
            "imported"));
  }

  @Override
  public String export() {
    return "select coalesce(c.ref, k.mark || '-consent-' || cast(c.id as varchar(20))) as ref, l.code as location, p.chart_number as patient,"
        + " lower(c.kind) as kind, c.given, c.text_version, c.language, c.signer, c.relation,"
        + " lower(c.means) as means, c.signed_at from consent c"
        + " join patient p on p.id = c.patient_id join location l on l.id = p.location_id,"
        + " exchange_mark k where p.location_id in (:locations) order by c.signed_at, c.id";
  }
}
