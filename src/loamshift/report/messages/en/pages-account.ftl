### Signing in, passwords, keys for the API, and the people in an office.

account-sign-in-intro = The beds, letters and products of your office.
account-user-name = User name
account-password = Password
account-wrong = Wrong user name or password. Capital letters matter in both. Your administrator can set a new password for you.
account-form-carried = You were signed out while you worked. What you typed is kept: sign in, then send it.
account-carried = Send what you typed?
account-carried-intro = You are signed in again. What you typed before is ready to be sent. Files have to be chosen again.
account-carried-send = Send it
account-carried-drop = Discard it
account-wait = { $unit ->
    [minutes] { $n ->
        [one] Too many attempts. Wait one minute, then try again.
       *[other] Too many attempts. Wait { $n } minutes, then try again.
    }
   *[seconds] { $n ->
        [one] Too many attempts. Wait one second, then try again.
       *[other] Too many attempts. Wait { $n } seconds, then try again.
    }
}
account-role = { $role ->
    [adviser] adviser
   *[reader] reader
}
account-person = { $active ->
    [yes] { account-role }
   *[no] { account-role }, disabled
}
account-may-change = You can see and change everything in this office.
account-may-look = You can see everything in this office, but you cannot change anything.
account-people = People in this office
account-last-sign-in = last signed in on { $day }
account-never-signed-in = has not signed in yet
account-administrator = Whoever runs the server adds users and sets new passwords.

## Password

account-password-now = Current password
account-password-new = New password
account-password-again = New password again
account-password-hint = At least 8 characters. Avoid common passwords.
account-change-password = Change password
account-password-changed = Password changed. You have been signed out everywhere else.
account-password-incorrect = The current password is wrong.
account-password-mismatch = The two new passwords do not match.
account-password-too-short = Use at least { $least } characters.
account-password-too-common = This password is too common. Choose another.
account-password-entirely-numeric = Use letters too, not only digits.
account-password-too-similar = This password is too much like your user name. Choose another.

## API keys

account-keys = API keys
account-keys-about = A program that uses this workbench needs a key. It can do whatever you can do.
account-keys-how = How to use the API
account-key-shown = The key for { $program }. Copy it now: it is not shown again.
account-key-made = made on { $day }
account-revoke = Revoke
account-revoke-named = Revoke the key for { $program }
account-no-keys = You have no keys. Give each program its own, so that you can revoke one without the others.
account-key-for = What the key is for
account-key-for-missing = Enter what the key is for.
account-keys-most = You have { $most } keys already. Revoke one first.
account-make-key = Make a key
account-key-revoked = Key revoked.
account-key-unknown = There is no such key.
