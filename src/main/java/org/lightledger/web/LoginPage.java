package org.lightledger.web;

import org.jspecify.annotations.Nullable;

/**
 * The page that asks for the owner's password.
 *
 * @param assets the addresses of style sheets
 * @param to where the login leads on to, a path of this site
 * @param problem why the last try did not do, or null
 */
public record LoginPage(Assets assets, String to, @Nullable String problem) {}
