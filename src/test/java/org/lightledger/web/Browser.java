package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import com.deque.html.axecore.results.Rule;
import com.deque.html.axecore.selenium.AxeBuilder;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.logging.Level;
import org.openqa.selenium.By;
import org.openqa.selenium.Rectangle;
import org.openqa.selenium.WebDriverException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.openqa.selenium.support.ui.WebDriverWait;

/** A real browser at one width, with an accessibility check and screenshots. */
final class Browser implements AutoCloseable {
  private static final Path SCREENSHOTS = Path.of("target", "screenshots");
  private static final List<String> FLAGS =
      List.of(
          "--headless=new",
          "--no-sandbox",
          "--disable-gpu",
          "--disable-quic",
          "--no-first-run",
          "--disable-background-networking",
          "--disable-component-update",
          "--disable-sync",
          "--hide-scrollbars");

  /** A width that people use. */
  enum Viewport {
    DESKTOP(1280, 900),
    PHONE(390, 844);

    private final int width;
    private final int height;

    Viewport(int width, int height) {
      this.width = width;
      this.height = height;
    }
  }

  private final Viewport viewport;
  private final ChromeDriver driver;
  private final String address;

  private Browser(ChromeDriver driver, Viewport viewport, String address) {
    this.driver = driver;
    this.viewport = viewport;
    this.address = address;
    resize(viewport.height);
    scheme("light");
  }

  /** Opens the system's Chromium; without one the test is skipped, on the build server it fails. */
  static Browser open(Viewport viewport, String address, Path profile) {
    Optional<File> chromium = onPath("chromium", "chromium-browser", "google-chrome");
    Optional<File> chromedriver = onPath("chromedriver");
    if (chromium.isEmpty() || chromedriver.isEmpty()) {
      String missing =
          "expected chromium and chromedriver on the PATH, found not both; install them";
      if ("true".equals(System.getenv("CI"))) {
        fail(missing);
      }
      abort(missing + " to run the browser tests");
    }
    ChromeOptions options = new ChromeOptions();
    options.setBinary(chromium.get());
    options.addArguments(FLAGS);
    options.addArguments("--user-data-dir=" + profile.toAbsolutePath());
    LoggingPreferences logging = new LoggingPreferences();
    logging.enable(LogType.BROWSER, Level.ALL);
    options.setCapability("goog:loggingPrefs", logging);
    ChromeDriverService service =
        new ChromeDriverService.Builder()
            .usingDriverExecutable(chromedriver.get())
            .usingAnyFreePort()
            .build();
    return new Browser(new ChromeDriver(service, options), viewport, address);
  }

  private static Optional<File> onPath(String... names) {
    for (String name : names) {
      for (String folder : System.getenv("PATH").split(File.pathSeparator)) {
        File file = new File(folder, name);
        if (file.canExecute()) {
          return Optional.of(file);
        }
      }
    }
    return Optional.empty();
  }

  private void resize(int height) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of(
            "width",
            viewport.width,
            "height",
            height,
            "deviceScaleFactor",
            1,
            "mobile",
            viewport == Viewport.PHONE));
  }

  void scheme(String scheme) {
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
  }

  /** Keeps what the page saves in a folder. */
  void saveInto(Path folder) {
    driver.executeCdpCommand(
        "Browser.setDownloadBehavior",
        Map.of("behavior", "allow", "downloadPath", folder.toAbsolutePath().toString()));
  }

  /** Lets pages ask where the device is, and puts it at a place. */
  void standAt(double latitudeDeg, double longitudeDeg) {
    driver.executeCdpCommand(
        "Browser.grantPermissions", Map.of("permissions", List.of("geolocation")));
    driver.executeCdpCommand(
        "Emulation.setGeolocationOverride",
        Map.of("latitude", latitudeDeg, "longitude", longitudeDeg, "accuracy", 8));
  }

  void go(String path) {
    driver.get(path.startsWith("http") || path.startsWith("file:") ? path : address + path);
  }

  WebElement find(String css) {
    return driver.findElement(By.cssSelector(css));
  }

  List<WebElement> all(String css) {
    return driver.findElements(By.cssSelector(css));
  }

  Object run(String script, Object... arguments) {
    return driver.executeScript(script, arguments);
  }

  String path() {
    return driver.getCurrentUrl().substring(address.length());
  }

  /** Clicks after bringing the element to the middle, clear of bars at the edges. */
  void click(String css) {
    WebElement element = find(css);
    run("arguments[0].scrollIntoView({block: 'center'})", element);
    element.click();
  }

  /** Presses a key where the focus is. */
  void press(CharSequence key) {
    new Actions(driver).sendKeys(key).perform();
  }

  /** Taps a place in an element, told as parts of its width and height. */
  void tap(String css, double across, double down) {
    WebElement element = find(css);
    run("arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})", element);
    Rectangle box = element.getRect();
    new Actions(driver)
        .moveToElement(
            element,
            (int) Math.round((across - 0.5) * box.getWidth()),
            (int) Math.round((down - 0.5) * box.getHeight()))
        .click()
        .perform();
  }

  /**
   * Waits until an element says what is expected. While the page swaps a part, elements of the part
   * before fail in several ways; they are asked for again.
   */
  void await(String css, Predicate<WebElement> expected) {
    new WebDriverWait(driver, Duration.ofSeconds(20))
        .ignoring(WebDriverException.class)
        .until(browser -> all(css).stream().anyMatch(expected));
  }

  void await(String css) {
    await(css, element -> true);
  }

  /** Checks the page in both colour schemes and keeps a picture of each. */
  void look(String name) {
    for (String scheme : List.of("light", "dark")) {
      scheme(scheme);
      assertFits(name);
      assertAccessible(name + ", " + scheme);
      screenshot(name + "-" + viewport.width + "-" + scheme);
    }
    scheme("light");
  }

  private void assertFits(String name) {
    long surplus = (Long) run("return document.documentElement.scrollWidth - window.innerWidth");
    assertThat(surplus).as(name + " is wider than the screen by, px").isLessThanOrEqualTo(0);
  }

  private void assertAccessible(String name) {
    List<String> grave =
        new AxeBuilder()
            .setLegacyMode(true).analyze(driver).getViolations().stream()
                .filter(
                    rule ->
                        List.of("serious", "critical").contains(String.valueOf(rule.getImpact())))
                .map(Browser::words)
                .toList();
    assertThat(grave).as("serious or critical barriers on " + name).isEmpty();
  }

  private static String words(Rule rule) {
    return rule.getId()
        + ": "
        + rule.getNodes().stream().map(node -> node.getHtml() + " " + node.getTarget()).toList();
  }

  /** Keeps a picture of the whole page. */
  void screenshot(String name) {
    long height = (Long) run("return document.documentElement.scrollHeight");
    resize((int) Math.min(Math.max(height, viewport.height), 6000));
    Map<String, Object> taken =
        driver.executeCdpCommand("Page.captureScreenshot", Map.of("format", "png"));
    resize(viewport.height);
    try {
      Files.createDirectories(SCREENSHOTS);
      Files.write(
          SCREENSHOTS.resolve(name + ".png"),
          Base64.getDecoder().decode(String.valueOf(taken.get("data"))));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What the browser complained of since the last call. */
  List<String> complaints() {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .filter(entry -> entry.getLevel().intValue() >= Level.WARNING.intValue())
        .map(entry -> entry.getMessage())
        .toList();
  }

  @Override
  public void close() {
    driver.quit();
  }
}
