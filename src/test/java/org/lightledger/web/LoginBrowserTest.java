package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A real browser logs in, changes something, and logs out again. */
class LoginBrowserTest {
  @TempDir Path folder;

  @Test
  void aBrowserLogsInChangesSomethingAndLogsOut() {
    WebSettings settings = new WebSettings("127.0.0.1", 0, null, 0, null);
    try (TestSite site = new TestSite(folder, settings, LockedSite.PASSWORD).withPhotos();
        Browser browser =
            Browser.open(Browser.Viewport.PHONE, site.address(), folder.resolve("profile"))) {
      browser.go("/spots?q=spot");
      assertThat(browser.path()).startsWith("/login?to=");
      browser.look("login");
      browser.find("#f-password").sendKeys("not the password at all");
      browser.click("button[type=submit]");
      browser.await("#problem", told -> told.getText().contains("not the password"));
      browser.look("login-wrong");
      browser.find("#f-password").sendKeys(LockedSite.PASSWORD);
      browser.click("button[type=submit]");
      browser.await(".leave");
      assertThat(browser.path()).isEqualTo("/spots?q=spot");
      assertThat(browser.run("return document.cookie")).isEqualTo("");

      browser.go("/shortlists");
      browser.find("input[name=title]").sendKeys("Made by hand");
      browser.click("main form button[type=submit]");
      browser.await("h1", title -> title.getText().equals("Made by hand"));
      browser.go("/shots/1");
      String answered =
          String.valueOf(
              browser.run(
                  "return fetch('/shots/1/sun?word=yes', {method: 'POST', headers: {'HX-Request':"
                      + " 'true'}}).then(answer => answer.status)"));
      assertThat(answered).isEqualTo("200");

      browser.click(".leave button");
      browser.await("#f-password");
      browser.go("/shortlists/1");
      assertThat(browser.path()).isEqualTo("/login?to=%2Fshortlists%2F1");
      assertThat(browser.complaints()).noneMatch(line -> line.contains("Content Security Policy"));
    }
  }
}
