package clinic.stimshelf.people;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.people.NewScreening.Confirmed;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

@QuarkusTest
class ScreeningsTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 3, 4);
  @Inject Screenings screenings;
  @Inject Intakes intakes;
  @Inject Clearances clearances;
  @Inject Orders orders;
  @Inject Consents consents;
  @Inject Patients patients;
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject MutableClock clock;
  private Member pt;
  private Member pta;
  private Long place;
  private Long patient;

  @BeforeEach
  void aPatientAndTwoTherapists() {
    clock.set(Instant.parse("2026-03-04T15:00:00Z"));
    place = crew.location(Crew.unique("Screen"));
    pt = crew.member(Roles.THERAPIST, Credential.PT, place);
    pta = crew.member(Roles.THERAPIST, Credential.PTA, place);
    patient = folk.patient(place);
  }

  @Test
  void everyQuestionOfTheRegionMustBeAnswered() {
    List<Confirmed> answers = new ArrayList<>(folk.answers("quadriceps", Map.of()));
    answers.removeIf(answer -> List.of("clot_dvt", "nerve_block").contains(answer.key()));
    assertThat(refused(pt, answers)).containsExactlyInAnyOrder("clot_dvt", "nerve_block");
    assertThat(refused(pt, List.of())).hasSize(screenings.questionsFor("quadriceps").size());
  }

  @Test
  void whatIsNotAskedOfTheRegionIsRefused() {
    List<Confirmed> answers = new ArrayList<>(folk.answers("quadriceps", Map.of()));
    answers.add(new Confirmed("pads_front_neck", Answer.NO, null, null));
    assertThat(refused(pt, answers)).containsExactly("answers");
  }

  @Test
  void aWeakerYesIsTakenOnlyWhereTheQuestionNamesOne() {
    assertThat(refused(pt, folk.answers("quadriceps", Map.of("clot_dvt", Answer.YES_BUT))))
        .containsExactly("clot_dvt");
    folk.screened(patient, "quadriceps", Side.LEFT, pt, Map.of("skin_broken_rash", Answer.YES_BUT));
    assertThat(status("left").openContraindications()).isEmpty();
    assertThat(status("left").unacceptedPrecautions())
        .extracting("key")
        .containsExactly("skin_broken_rash");
  }

  @Test
  void aScreeningHoldsForItsRegionAndSide() {
    folk.screened(patient, "quadriceps", Side.LEFT, pta);
    assertThat(status("left").clear()).isTrue();
    assertThat(screenings.status(patient, "hamstrings", "left", TODAY).clear())
        .as("another muscle of the same region")
        .isTrue();
    assertThat(status("right").current()).isFalse();
    assertThat(screenings.status(patient, "calf", "left", TODAY).current()).isFalse();
  }

  @Test
  void itGoesStaleWithTimeAndANewOneTakesItsPlace() {
    folk.screened(patient, "quadriceps", Side.LEFT, pt, Map.of("clot_dvt", Answer.YES));
    assertThat(status("left").openContraindications()).hasSize(1);
    clock.advance(Duration.ofDays(31));
    assertThat(screenings.status(patient, "quadriceps", "left", TODAY.plusDays(31)).current())
        .isFalse();
    folk.screened(patient, "quadriceps", Side.LEFT, pt);
    assertThat(screenings.status(patient, "quadriceps", "left", TODAY.plusDays(31)).clear())
        .isTrue();
    assertThat(screenings.of(patient))
        .extracting(ScreeningView::superseded)
        .containsExactly(false, true);
  }

  @Test
  void oneForBothSidesSupersedesEachButNotTheOtherWayRound() {
    folk.screened(patient, "quadriceps", Side.LEFT, pt);
    clock.advance(Duration.ofMinutes(1));
    folk.screened(patient, "quadriceps", Side.BOTH, pt, Map.of("clot_dvt", Answer.YES));
    clock.advance(Duration.ofMinutes(1));
    folk.screened(patient, "quadriceps", Side.RIGHT, pt);
    assertThat(screenings.of(patient))
        .extracting(ScreeningView::superseded)
        .containsExactly(false, false, true);
    assertThat(status("left").openContraindications()).hasSize(1);
    assertThat(status("right").clear()).isTrue();
  }

  @Test
  void onlyALicensedPtAcceptsAPrecautionAndOnlyWithAReason() {
    Map<String, Answer> swollen = Map.of("swelling_postop", Answer.YES);
    Long id = folk.screened(patient, "quadriceps", Side.LEFT, pta, swollen);
    assertThatThrownBy(() -> accept(pta, id, "swelling_postop", "Mild, no heat."))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("licensed PT only");
    assertThatThrownBy(() -> accept(pt, id, "swelling_postop", " "))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Say why");
    assertThat(status("left").unacceptedPrecautions()).hasSize(1);
    accept(pt, id, "swelling_postop", "Mild, no heat.");
    assertThat(status("left").clear()).isTrue();
    assertThat(screenings.of(patient).get(0).exceptions())
        .singleElement()
        .satisfies(
            line -> {
              assertThat(line.acceptedReason()).isEqualTo("Mild, no heat.");
              assertThat(line.acceptedByName()).isNotBlank();
            });
  }

  @Test
  void anAcceptanceWithTheScreeningItselfFollowsTheSameRule() {
    List<Confirmed> answers = withAcceptance("swelling_postop", Answer.YES, "Mild.");
    assertThat(refused(pta, answers)).containsExactly("swelling_postop");
    crew.as(
        pt.id(),
        () ->
            screenings.screen(
                new NewScreening(patient, "quadriceps", Side.LEFT, answers, null, null)));
    assertThat(status("left").clear()).isTrue();
  }

  @Test
  void nobodyAcceptsAContraindicationOrAHold() {
    assertThat(refused(pt, withAcceptance("clot_dvt", Answer.YES, "It is fine.")))
        .containsExactly("clot_dvt");
    Long id =
        folk.screened(
            patient, "quadriceps", Side.LEFT, pt, Map.of("repair_at_risk", Answer.NOT_SURE));
    assertThatThrownBy(() -> accept(pt, id, "repair_at_risk", "It is fine."))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Only a precaution can be accepted");
  }

  @Test
  void aNewScreeningWantsItsPrecautionsAcceptedAnew() {
    crew.as(
        pt.id(),
        () ->
            screenings.screen(
                new NewScreening(
                    patient,
                    "quadriceps",
                    Side.LEFT,
                    withAcceptance("swelling_postop", Answer.YES, "Mild."),
                    null,
                    null)));
    clock.advance(Duration.ofDays(1));
    folk.screened(patient, "quadriceps", Side.LEFT, pt, Map.of("swelling_postop", Answer.YES));
    assertThat(status("left").unacceptedPrecautions()).hasSize(1);
  }

  @Test
  void aHoldEndsWithANamedAndDatedClearanceAndComesBackWhenItIsWithdrawn() {
    folk.screened(patient, "quadriceps", Side.LEFT, pt, Map.of("repair_at_risk", Answer.YES));
    assertThat(status("left").openHolds()).hasSize(1);
    assertThat(clearanceRefused(null, null, null))
        .containsExactlyInAnyOrder("clearedBy", "clearedOn", "scope");
    assertThat(clearanceRefused("Dr. Ines Vale", TODAY.plusDays(1), "isometric only"))
        .containsExactly("clearedOn");
    Long id = clear("repair_at_risk", "Dr. Ines Vale, surgeon", TODAY, "isometric only");
    assertThat(status("left").clear()).isTrue();
    assertThat(status("right").clear()).isFalse();
    clearances.withdraw(patient, id, "Re-injured.");
    assertThat(status("left").openHolds()).hasSize(1);
    assertThat(clearances.of(patient).get(0).withdrawnReason()).isEqualTo("Re-injured.");
  }

  @Test
  void whatNobodyCanLiftTakesNoClearance() {
    assertThatThrownBy(() -> clear("clot_dvt", "Dr. Vale", TODAY, "all"))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Nobody can clear this");
  }

  @Test
  void theRulesOfTheHomeDontHoldUpTheClinic() {
    folk.screened(patient, "quadriceps", Side.LEFT, pt, Map.of("children_access", Answer.YES));
    assertThat(status("left").clear()).isFalse();
    assertThat(screenings.statusInClinic(patient, "quadriceps", "left", TODAY).clear()).isTrue();
  }

  @Test
  void aPatientsNewAnswerThatContradictsOutdatesTheScreening() {
    folk.screened(patient, "quadriceps", Side.LEFT, pt);
    clock.advance(Duration.ofHours(1));
    answer("quadriceps", Map.of());
    assertThat(status("left").current()).as("the same answers again").isTrue();
    answer("calf", Map.of("skin_broken_rash", Answer.YES));
    assertThat(status("left").current()).as("about the skin elsewhere").isTrue();
    answer("calf", Map.of("heart_problem", Answer.NOT_SURE));
    assertThat(status("left").current()).isFalse();
    assertThat(status("left").reasons())
        .singleElement()
        .asString()
        .contains("03/04/2026 the patient answered differently");
  }

  @Test
  void aPatientAnswersEverythingAskedWithYesNoOrNotSure() {
    Map<String, Answer> some = new HashMap<>(patientAnswers("quadriceps", Map.of()));
    some.remove("clot_dvt");
    some.put("pregnancy", Answer.YES_BUT);
    Refusal refusal =
        catchThrowableOfType(Refusal.class, () -> intakes.answer(intake("quadriceps", some)));
    assertThat(refusal.reasons())
        .extracting(Reason::field)
        .containsExactlyInAnyOrder("clot_dvt", "pregnancy");
  }

  @Test
  void aChangeOutdatesTheRegionsItIsAbout() {
    folk.screened(patient, "quadriceps", Side.LEFT, pt);
    folk.screened(patient, "calf", Side.LEFT, pt);
    screenings.outdate(patient, "lower-leg", "The ankle was operated again.");
    assertThat(status("left").current()).isTrue();
    assertThat(screenings.status(patient, "calf", "left", TODAY).reasons())
        .singleElement()
        .asString()
        .contains("operated again");
  }

  @Test
  void aScreeningEnteredOnALaterDayNeedsAReasonAndCountsFromItsOwnDay() {
    Instant weeksAgo = clock.instant().minus(Duration.ofDays(40));
    NewScreening late =
        new NewScreening(
            patient, "quadriceps", Side.LEFT, folk.answers("quadriceps", Map.of()), weeksAgo, null);
    assertThatThrownBy(() -> crew.as(pt.id(), () -> screenings.screen(late)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Say why it is entered only now");
    crew.as(
        pt.id(),
        () ->
            screenings.screen(
                new NewScreening(
                    patient, "quadriceps", Side.LEFT, late.answers(), weeksAgo, "Paper day.")));
    assertThat(status("left").current()).isFalse();
  }

  @Test
  void aScreeningOfAFileIsKnownAgain() {
    PastScreening past =
        new PastScreening(
            Crew.unique("scr-"),
            patient,
            "quadriceps",
            Side.RIGHT,
            pt.id(),
            clock.instant().minus(Duration.ofDays(2)),
            Map.of("swelling_postop", "Mild.", "pad_reaction", ""));
    Long id = screenings.enter(past);
    assertThat(screenings.enter(past)).isEqualTo(id);
    assertThat(status("right").unacceptedPrecautions())
        .extracting("key")
        .containsExactly("pad_reaction");
  }

  @Test
  void theLatestWordOnTakingAUnitHomeCounts() {
    assertThat(consents.loanConsentOnRecord(patient, 7L)).isFalse();
    consent(patient, null, true, "self");
    assertThat(consents.loanConsentOnRecord(patient, 7L)).isTrue();
    clock.advance(Duration.ofMinutes(1));
    consent(patient, 7L, false, "self");
    assertThat(consents.loanConsentOnRecord(patient, 7L)).isFalse();
    assertThat(consents.loanConsentOnRecord(patient, 8L)).isTrue();
  }

  @Test
  void aMinorDoesNotSignForThemselves() {
    NewPatient grown = Folk.entry(place);
    Long child =
        patients.add(
            new NewPatient(
                null,
                place,
                grown.chartNumber(),
                "Kit Lindqvist",
                TODAY.minusYears(15),
                "Ada Lindqvist",
                "mother",
                "en",
                false,
                ReachBy.CALL,
                grown.phone(),
                null,
                null,
                true,
                null));
    assertThatThrownBy(() -> consent(child, null, true, "Self"))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Let Ada Lindqvist sign.");
    consent(child, null, true, "mother");
    assertThat(consents.loanConsentOnRecord(child, null)).isTrue();
  }

  @Test
  void aWordOnMessagesIsKeptWithThePatient() {
    consents.record(
        new NewConsent(
            null,
            patient,
            ConsentKind.REMINDERS,
            null,
            false,
            "1",
            "en",
            "Ada Lindqvist",
            "self",
            Means.SCREEN,
            null,
            null));
    assertThat(patients.byId(patient).remindersAllowed()).isFalse();
  }

  @Test
  void anOrderRunsFromItsDayToItsEndUnlessWithdrawn() {
    Long id =
        orders.record(
            new NewOrder(
                null, patient, "Dr. Vale", TODAY, TODAY.plusDays(42), "NMES left knee", null));
    assertThat(orders.running(patient, TODAY)).isPresent();
    assertThat(orders.running(patient, TODAY.plusDays(42))).isPresent();
    assertThat(orders.running(patient, TODAY.plusDays(43))).isEmpty();
    orders.withdraw(patient, id, "Written for somebody else.");
    assertThat(orders.running(patient, TODAY)).isEmpty();
  }

  private void consent(Long who, Long programId, boolean given, String relation) {
    consents.record(
        new NewConsent(
            null,
            who,
            ConsentKind.LOAN,
            programId,
            given,
            "1",
            null,
            "Ada Lindqvist",
            relation,
            Means.PAPER,
            null,
            null));
  }

  private ScreeningStatus status(String side) {
    return screenings.status(patient, "quadriceps", side, TODAY);
  }

  private boolean accept(Member who, Long screeningId, String key, String reason) {
    return crew.as(
        who.id(),
        () -> {
          screenings.accept(patient, screeningId, key, reason);
          return true;
        });
  }

  private List<String> refused(Member who, List<Confirmed> answers) {
    Refusal refusal =
        catchThrowableOfType(
            Refusal.class,
            () ->
                crew.as(
                    who.id(),
                    () ->
                        screenings.screen(
                            new NewScreening(
                                patient, "quadriceps", Side.LEFT, answers, null, null))));
    return refusal.reasons().stream().map(Reason::field).toList();
  }

  private List<Confirmed> withAcceptance(String key, Answer answer, String reason) {
    return folk.answers("quadriceps", Map.of(key, answer)).stream()
        .map(one -> one.key().equals(key) ? new Confirmed(key, answer, null, reason) : one)
        .toList();
  }

  private Long clear(String question, String by, LocalDate on, String scope) {
    return clearances.record(
        new NewClearance(null, patient, question, "quadriceps", Side.LEFT, by, on, null, scope));
  }

  private List<String> clearanceRefused(String by, LocalDate on, String scope) {
    Refusal refusal =
        catchThrowableOfType(Refusal.class, () -> clear("repair_at_risk", by, on, scope));
    return refusal.reasons().stream().map(Reason::field).toList();
  }

  private void answer(String muscle, Map<String, Answer> butFor) {
    intakes.answer(intake(muscle, patientAnswers(muscle, butFor)));
  }

  private Map<String, Answer> patientAnswers(String muscle, Map<String, Answer> butFor) {
    Map<String, Answer> answers = new HashMap<>();
    intakes.questionsFor(muscle).forEach(question -> answers.put(question.key(), Answer.NO));
    answers.putAll(butFor);
    return answers;
  }

  private NewIntake intake(String muscle, Map<String, Answer> answers) {
    return new NewIntake(
        patient, muscle, Side.LEFT, "en", "Ada Lindqvist", Means.SCREEN, answers, null, null);
  }
}
