package clinic.stimshelf.people;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Stale;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

@QuarkusTest
class PatientsTest {
  @Inject Patients patients;
  @Inject Crew crew;
  @Inject Trail trail;
  private Long place;

  @BeforeEach
  void aLocationOfItsOwn() {
    place = crew.location(Crew.unique("People"));
  }

  @Test
  void whatWasEnteredReadsBackAndStandsInTheTrail() {
    Long id = patients.add(Folk.entry(place));
    PatientView view = patients.byId(id);
    assertThat(view.name()).isEqualTo("Ada Lindqvist");
    assertThat(view.language()).isEqualTo("en");
    assertThat(trail.of(Patients.subject(id))).extracting("action").containsExactly("added");
  }

  @Test
  void somebodyUnderEighteenNeedsAGuardianAndSomebodyOfEighteenDoesNot() {
    LocalDate today = LocalDate.now();
    String chart = Crew.unique("G-");
    assertThat(
            fieldsRefused(Folk.entry(place, chart, "Bo Young", today.minusYears(18).plusDays(2))))
        .containsExactly("guardianName");
    assertThat(
            patients.add(Folk.entry(place, chart, "Bo Young", today.minusYears(18).minusDays(1))))
        .isPositive();
  }

  @Test
  void everythingWrongIsSaidAtOnce() {
    NewPatient wrong =
        new NewPatient(
            null,
            place,
            "no blanks!",
            " ",
            LocalDate.of(1800, 1, 1),
            null,
            "mother",
            "english",
            false,
            ReachBy.LETTER,
            "12",
            "nobody",
            null,
            false,
            LocalDate.of(1700, 1, 1));
    assertThat(fieldsRefused(wrong))
        .containsExactlyInAnyOrder(
            "chartNumber",
            "name",
            "birthDate",
            "diedOn",
            "guardianName",
            "language",
            "phone",
            "email",
            "address");
  }

  @Test
  void aChartNumberBelongsToOnePatientWhateverItsCase() {
    String chart = Crew.unique("Chart-");
    patients.add(Folk.entry(place, chart, "First", LocalDate.of(1970, 1, 1)));
    assertThat(
            fieldsRefused(
                Folk.entry(place, chart.toUpperCase(), "Second", LocalDate.of(1971, 1, 1))))
        .containsExactly("chartNumber");
    assertThat(patients.byChart(chart.toLowerCase())).isPresent();
  }

  @Test
  void isFoundByChartByWordsOfTheNameAndByBirthDateOnly() {
    String family = Crew.unique("Núñez");
    String chart = Crew.unique("F-");
    Long id =
        patients.add(Folk.entry(place, chart, "José María " + family, LocalDate.of(1969, 7, 20)));
    assertThat(found(chart)).containsExactly(id);
    assertThat(found("jose " + family.toLowerCase())).containsExactly(id);
    assertThat(found("MARIA " + family)).containsExactly(id);
    assertThat(found(family + " 7/20/1969")).containsExactly(id);
    assertThat(found(family + " 1969-07-20")).containsExactly(id);
    assertThat(found(family + " 7/21/1969")).isEmpty();
    assertThat(found("% " + family)).isEmpty();
    assertThatThrownBy(() -> found("  ")).isInstanceOf(Malformed.class);
  }

  @Test
  void peopleOfAnotherLocationAreNotThere() {
    Long id = patients.add(Folk.entry(place));
    String chart = patients.byId(id).chartNumber();
    Crew.Member elsewhere =
        crew.member(Roles.FRONT_DESK, Credential.NONE, crew.location(Crew.unique("Else")));
    assertThatThrownBy(() -> crew.as(elsewhere.id(), () -> patients.byId(id)))
        .isInstanceOf(NotFound.class);
    assertThat(crew.as(elsewhere.id(), () -> patients.find(chart, Paging.of(0, 10)).items()))
        .isEmpty();
    assertThat(crew.as(elsewhere.id(), () -> patients.byChart(chart))).isEmpty();
  }

  @Test
  void aSecondChangeOfTheSameVersionIsStale() {
    NewPatient entry = Folk.entry(place);
    Long id = patients.add(entry);
    int read = patients.byId(id).version();
    NewPatient married =
        Folk.entry(place, entry.chartNumber(), "Ada Berg", LocalDate.of(1980, 5, 17));
    assertThat(patients.change(id, read, married).version()).isGreaterThan(read);
    assertThatThrownBy(() -> patients.change(id, read, entry)).isInstanceOf(Stale.class);
    assertThat(patients.byId(id).name()).isEqualTo("Ada Berg");
    assertThat(trail.of(Patients.subject(id))).extracting("action").contains("changed");
  }

  @Test
  void changingNothingLeavesNoTrace() {
    NewPatient entry = Folk.entry(place);
    Long id = patients.add(entry);
    patients.change(id, null, entry);
    assertThat(trail.of(Patients.subject(id))).hasSize(1);
  }

  @Test
  void theSameRowOfAFileTwiceChangesNothing() {
    NewPatient entry = Folk.entry(place);
    String ref = Crew.unique("file-");
    NewPatient row = withRef(entry, ref, entry.chartNumber());
    Long id = QuarkusTransaction.requiringNew().call(() -> patients.enter(row));
    assertThat(QuarkusTransaction.requiringNew().call(() -> patients.enter(row))).isEqualTo(id);
  }

  @Test
  void aFileIsCheckedAgainstItsOwnRowsBeforeTheyAreWritten() {
    NewPatient entry = Folk.entry(place);
    Refusal refusal =
        catchThrowableOfType(
            Refusal.class,
            () ->
                QuarkusTransaction.requiringNew()
                    .run(
                        () -> {
                          String one = Crew.unique("row-");
                          Long id = patients.enter(withRef(entry, one, entry.chartNumber()));
                          assertThat(patients.enter(withRef(entry, one, "other"))).isEqualTo(id);
                          patients.enter(withRef(entry, Crew.unique("row-"), entry.chartNumber()));
                        }));
    assertThat(refusal.reasons()).extracting(Reason::field).containsExactly("chartNumber");
  }

  @Test
  void whoDiedIsNotReminded() {
    NewPatient entry = Folk.entry(place);
    Long id = patients.add(entry);
    assertThat(patients.byId(id).mayBeReminded()).isTrue();
    patients.change(
        id,
        null,
        new NewPatient(
            null,
            place,
            entry.chartNumber(),
            entry.name(),
            entry.birthDate(),
            null,
            null,
            "en",
            false,
            ReachBy.CALL,
            entry.phone(),
            null,
            null,
            true,
            LocalDate.now().minusDays(3)));
    assertThat(patients.byId(id).mayBeReminded()).isFalse();
  }

  private static NewPatient withRef(NewPatient entry, String ref, String chart) {
    return new NewPatient(
        ref,
        entry.locationId(),
        chart,
        entry.name(),
        entry.birthDate(),
        null,
        null,
        "es",
        true,
        ReachBy.CALL,
        entry.phone(),
        null,
        null,
        false,
        null);
  }

  private List<Long> found(String text) {
    return patients.find(text, Paging.of(0, 10)).items().stream().map(PatientView::id).toList();
  }

  private List<String> fieldsRefused(NewPatient entry) {
    Refusal refusal = catchThrowableOfType(Refusal.class, () -> patients.add(entry));
    return refusal.reasons().stream().map(Reason::field).toList();
  }
}
