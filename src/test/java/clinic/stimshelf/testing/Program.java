package clinic.stimshelf.testing;

import java.io.IOException;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** The packaged program as a process of its own, on a free port of this machine. */
public final class Program implements AutoCloseable {
  // The first start fills the demo clinic: 60 s on a slow machine, twice that where two start at
  // once.
  private static final Duration PATIENCE = Duration.ofSeconds(300);

  private final Process process;
  private final int port;
  private final Path log;
  private final HttpClient http =
      HttpClient.newBuilder().connectTimeout(Duration.ofSeconds(5)).build();

  private Program(Process process, int port, Path log) {
    this.process = process;
    this.port = port;
    this.log = log;
  }

  /**
   * Starts the program and waits until it answers.
   *
   * @param folder in which it keeps its data and its log
   * @param options such as {@code -Dname=value}
   */
  public static Program start(Path folder, String... options) throws Exception {
    Files.createDirectories(folder);
    int port;
    try (ServerSocket free = new ServerSocket(0)) {
      port = free.getLocalPort();
    }
    Path jar =
        Path.of(System.getProperty("stimshelf.build", "target"), "quarkus-app", "quarkus-run.jar");
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.add("-Xmx1g");
    command.add("-Dstimshelf.data=" + folder.resolve("data").toAbsolutePath());
    command.add("-Dquarkus.http.port=" + port);
    command.addAll(List.of(options));
    command.add("-jar");
    command.add(jar.toAbsolutePath().toString());
    Path log = folder.resolve("program.log");
    Process process =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.appendTo(log.toFile()))
            .start();
    Program program = new Program(process, port, log);
    program.waitUntilReady();
    return program;
  }

  /** The same in a folder from which everything is removed first. */
  public static Program startEmpty(Path folder, String... options) throws Exception {
    if (Files.exists(folder)) {
      try (Stream<Path> all = Files.walk(folder)) {
        for (Path one : all.sorted(Comparator.reverseOrder()).toList()) {
          Files.delete(one);
        }
      }
    }
    return start(folder, options);
  }

  public String base() {
    return "http://127.0.0.1:" + port;
  }

  /** What it wrote so far, of all starts in this folder. */
  public String log() throws IOException {
    return Files.readString(log, StandardCharsets.UTF_8);
  }

  public HttpResponse<String> get(String path, String user) throws Exception {
    return http.send(call(path, user).GET().build(), HttpResponse.BodyHandlers.ofString());
  }

  public HttpResponse<String> post(String path, String user, String json) throws Exception {
    return http.send(
        call(path, user)
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.ofString(json))
            .build(),
        HttpResponse.BodyHandlers.ofString());
  }

  private HttpRequest.Builder call(String path, String user) {
    HttpRequest.Builder call =
        HttpRequest.newBuilder(URI.create(base() + path)).timeout(Duration.ofSeconds(30));
    if (user != null) {
      call.header(
          "Authorization",
          "Basic "
              + Base64.getEncoder()
                  .encodeToString((user + ":demo-clinic-only").getBytes(StandardCharsets.UTF_8)));
    }
    return call;
  }

  /** As a power switch would: no shutdown code runs. */
  public void kill() throws InterruptedException {
    process.destroyForcibly();
    process.waitFor(30, TimeUnit.SECONDS);
  }

  @Override
  public void close() throws InterruptedException {
    process.destroy();
    if (!process.waitFor(20, TimeUnit.SECONDS)) {
      kill();
    }
  }

  private void waitUntilReady() throws Exception {
    long end = System.nanoTime() + PATIENCE.toNanos();
    while (System.nanoTime() < end) {
      if (!process.isAlive()) {
        throw new IllegalStateException("The program stopped:\n" + log());
      }
      try {
        if (get("/q/health/ready", null).statusCode() == 200) {
          return;
        }
      } catch (IOException notYet) {
        // it is still starting
      }
      Thread.sleep(200);
    }
    kill();
    throw new IllegalStateException("The program did not become ready:\n" + log());
  }
}
