package clinic.stimshelf.location;

import java.time.DayOfWeek;
import java.util.List;
import java.util.Map;

/** What makes a new location. */
public record NewLocation(
    String code,
    String name,
    String zone,
    String phone,
    String address,
    String afterHoursWords,
    String emergencyWords,
    Map<DayOfWeek, List<DayHours>> hours,
    Map<String, Integer> rooms) {}
