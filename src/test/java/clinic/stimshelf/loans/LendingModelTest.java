package clinic.stimshelf.loans;

import static clinic.stimshelf.loans.LendingScene.get;
import static clinic.stimshelf.loans.LendingScene.post;
import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.ValidatableResponse;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Random sequences of what a clinic does with loans, units and pads, beside a small model: who has
 * which unit, what state a unit is in, how many packs are in the cupboard. The program may refuse
 * only what the model says cannot be, and never anything else.
 */
@QuarkusTest
class LendingModelTest {
  private static final int STEPS = 45;
  private static final int PATIENTS = 4;
  private static final int UNITS = 3;

  @Inject LendingScene lending;

  /** What should be so. */
  private static final class Model {
    final Map<String, String> unitOfLoan = new TreeMap<>();
    final Map<String, String> loanOfProgram = new TreeMap<>();
    final Map<String, Integer> packsOfLoan = new HashMap<>();
    final Map<String, String> state = new TreeMap<>();
    int cupboard;

    boolean ready(String unit) {
      return state.get(unit).equals("ready");
    }

    void home(String loan, String program) {
      state.put(unitOfLoan.remove(loan), "to-wipe");
      loanOfProgram.remove(program);
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void what_the_model_allows_happens_and_nothing_else(long seed) {
    Random chance = new Random(seed);
    LendingScene.Scene scene = lending.open();
    Model model = new Model();
    model.cupboard = lending.packs(scene);
    List<String> units = new ArrayList<>();
    for (int i = 0; i < UNITS; i++) {
      String unit = lending.unit(scene);
      units.add(unit);
      model.state.put(unit, "ready");
    }
    List<String> programs = new ArrayList<>();
    for (int i = 0; i < PATIENTS; i++) {
      String program = lending.signed(scene);
      lending.prepared(scene, program, units.get(0));
      units.subList(1, UNITS).forEach(unit -> lending.confirmed(scene, program, unit));
      programs.add(program);
    }
    LocalDate day = LendingScene.TUESDAY;
    for (int step = 0; step < STEPS; step++) {
      String program = programs.get(chance.nextInt(PATIENTS));
      String unit = units.get(chance.nextInt(UNITS));
      switch (chance.nextInt(6)) {
        case 0, 1 -> checkOut(scene, model, program, unit, 1 + chance.nextInt(2));
        case 2 -> checkIn(scene, model, program);
        case 3 -> annul(scene, model, program);
        case 4 -> swap(scene, model, program, unit);
        default -> makeReady(scene, model, unit);
      }
      agrees(scene, model, "seed " + seed + ", step " + step);
      if (step % 20 == 19) {
        lending.at(day = day.plusDays(1), "09:00");
      }
    }
  }

  private void checkOut(
      LendingScene.Scene scene, Model model, String program, String unit, int packs) {
    Map<String, Object> order = lending.order(scene, program, unit, packs);
    if (packs < 2) {
      order.put("packsReason", "the rest follows");
    }
    boolean allowed = model.ready(unit) && !model.loanOfProgram.containsKey(program);
    ValidatableResponse answer = post(scene.desk(), "/api/loans", order);
    int status = answer.extract().statusCode();
    assertThat(status == 200).as(answer.extract().asString()).isEqualTo(allowed);
    if (allowed) {
      String loan = answer.extract().path("id");
      model.unitOfLoan.put(loan, unit);
      model.loanOfProgram.put(program, loan);
      model.packsOfLoan.put(loan, packs);
      model.state.put(unit, "on-loan");
      model.cupboard -= packs;
    }
  }

  private void checkIn(LendingScene.Scene scene, Model model, String program) {
    String loan = model.loanOfProgram.get(program);
    if (loan != null) {
      post(scene.desk(), "/api/loans/" + loan + "/return", Map.of()).statusCode(200);
      model.home(loan, program);
      post(scene.desk(), "/api/loans/" + loan + "/return", Map.of()).statusCode(422);
    }
  }

  private void annul(LendingScene.Scene scene, Model model, String program) {
    String loan = model.loanOfProgram.get(program);
    if (loan != null) {
      post(scene.desk(), "/api/loans/" + loan + "/void", Map.of("reason", "wrong person"))
          .statusCode(200);
      model.state.put(model.unitOfLoan.remove(loan), "ready");
      model.loanOfProgram.remove(program);
      model.cupboard += model.packsOfLoan.get(loan);
    }
  }

  private void swap(LendingScene.Scene scene, Model model, String program, String unit) {
    String loan = model.loanOfProgram.get(program);
    if (loan == null) {
      return;
    }
    boolean allowed = model.ready(unit);
    int status =
        post(
                scene.desk(),
                "/api/loans/" + loan + "/swap",
                Map.of("unitTag", unit, "reason", "display is dim"))
            .extract()
            .statusCode();
    assertThat(status == 200).isEqualTo(allowed);
    if (allowed) {
      model.state.put(model.unitOfLoan.put(loan, unit), "to-wipe");
      model.state.put(unit, "on-loan");
    }
  }

  /** Wiped, its contact time waited for, inspected and charged. */
  private void makeReady(LendingScene.Scene scene, Model model, String unit) {
    if (model.state.get(unit).equals("to-wipe")) {
      post(scene.desk(), "/api/units/" + unit + "/wiped", Map.of("product", "gray-tub"))
          .statusCode(200);
      lending.later(5);
      post(scene.pt(), "/api/units/" + unit + "/inspected", Map.of("passed", true)).statusCode(200);
      post(scene.desk(), "/api/units/" + unit + "/charged", Map.of()).statusCode(200);
      model.state.put(unit, "ready");
    }
  }

  private void agrees(LendingScene.Scene scene, Model model, String when) {
    assertThat(lending.packs(scene)).as("packs, " + when).isEqualTo(model.cupboard);
    Map<String, String> states = new TreeMap<>();
    List<Map<String, Object>> found =
        get(scene.desk(), "/api/units?location=" + scene.code()).extract().path("items");
    found.forEach(unit -> states.put((String) unit.get("tag"), (String) unit.get("state")));
    assertThat(states).as("units, " + when).isEqualTo(model.state);
    Map<String, String> loans = new TreeMap<>();
    List<Map<String, Object>> out =
        get(scene.desk(), "/api/loans?location=" + scene.code()).extract().path("items");
    out.forEach(loan -> loans.put((String) loan.get("id"), (String) loan.get("unitTag")));
    assertThat(loans).as("loans, " + when).isEqualTo(model.unitOfLoan);
  }
}
