package clinic.stimshelf.web;

import io.quarkus.arc.DefaultBean;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;

/** The frame of a page that nobody is signed in for. */
@DefaultBean
@ApplicationScoped
class NobodyThere implements Frame {
  @Override
  public boolean signedIn() {
    return false;
  }

  @Override
  public String person() {
    return "";
  }

  @Override
  public String part() {
    return "";
  }

  @Override
  public boolean has(String role) {
    return false;
  }

  @Override
  public String place() {
    return "";
  }

  @Override
  public String placeCode() {
    return "";
  }

  @Override
  public List<Place> places() {
    return List.of();
  }

  @Override
  public String day() {
    return "";
  }

  @Override
  public String csrf() {
    return "";
  }

  @Override
  public boolean privacy() {
    return false;
  }

  @Override
  public boolean demo() {
    return false;
  }

  @Override
  public long secondsLeft() {
    return 0;
  }

  @Override
  public long secondsWarning() {
    return 0;
  }
}
