package clinic.stimshelf.desk;

import static clinic.stimshelf.desk.DeskScene.DUE;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;

import clinic.stimshelf.location.ClosureView;
import clinic.stimshelf.location.Locations;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalTime;
import org.junit.jupiter.api.Test;

@QuarkusTest
class LateBeginsAtClosingTest {
  @Inject DeskScene scene;
  @Inject Locations locations;

  @Test
  void aLoanComesInUntilTheLocationClosesAndIsLateFromThenOn() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Lent lent = scene.lent(clinic);
    scene.at(DUE.minusDays(1), "12:00");
    clinic.today().body("comingIn", hasSize(0)).body("late", hasSize(0));
    scene.at(DUE, "17:59");
    clinic
        .today()
        .body("late", hasSize(0))
        .body("comingIn", hasSize(1))
        .body("comingIn[0].loanId", equalTo(lent.loan()))
        .body("comingIn[0].unitTag", equalTo(lent.unit()))
        .body("comingIn[0].chartNumber", equalTo(lent.asked().chart()))
        .body("comingIn[0].dueOn", equalTo(DUE.toString()))
        .body("comingIn[0].daysLate", equalTo(0));
    scene.at(DUE, "18:00");
    clinic
        .today()
        .body("comingIn", hasSize(0))
        .body("late", hasSize(1))
        .body("late[0].loanId", equalTo(lent.loan()))
        .body("late[0].daysLate", equalTo(0));
    scene.at(DUE.plusDays(3), "08:00");
    clinic.today().body("late[0].daysLate", equalTo(3));
  }

  @Test
  void aHalfDayEnteredTheSameMorningMakesItLateAtNoon() {
    DeskScene.Clinic clinic = scene.clinic();
    scene.lent(clinic);
    scene.at(DUE, "06:40");
    locations.close(
        clinic.location(), new ClosureView(DUE, LocalTime.of(8, 0), LocalTime.NOON, "Half day"));
    scene.at(DUE, "11:59");
    clinic.today().body("late", hasSize(0));
    scene.at(DUE, "12:00");
    clinic.today().body("late", hasSize(1));
  }

  @Test
  void aMissingUnitIsNoLongerCalledLate() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Lent lent = scene.lent(clinic);
    scene.at(DUE.plusDays(2), "09:00");
    clinic
        .post(
            clinic.desk(),
            "/api/loans/" + lent.loan() + "/missing",
            java.util.Map.of("reason", "left on a bus"))
        .statusCode(200);
    clinic.today().body("late", hasSize(0)).body("comingIn", hasSize(0));
  }
}
