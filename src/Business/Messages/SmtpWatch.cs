using System.Globalization;
using System.Text;
using MailKit;

namespace MitigationOffice.Business.Messages;

/// <summary>Listens to the talk with the server, to know at any break whether it may already have the message.</summary>
public sealed class SmtpWatch : IProtocolLogger
{
    private bool _asked;

    /// <summary>The server was ready for the message's text: from here on it may have it.</summary>
    public bool TextBegun { get; private set; }

    /// <summary>The server's answer to the whole text; 0 while there is none.</summary>
    public int TextAnswer { get; private set; }
    public string TextWords { get; private set; } = "";
    public int LastCode { get; private set; }
    public string LastWords { get; private set; } = "";
    public IAuthenticationSecretDetector? AuthenticationSecretDetector { get; set; }

    public void Forget() => (_asked, TextBegun, TextAnswer, TextWords, LastCode, LastWords) = (false, false, 0, "", 0, "");

    public void LogConnect(Uri uri)
    {
    }

    public void LogClient(byte[] buffer, int offset, int count)
    {
        foreach (var line in Encoding.Latin1.GetString(buffer, offset, count).Split("\r\n"))
        {
            if (line.StartsWith("BDAT ", StringComparison.OrdinalIgnoreCase)) _asked = TextBegun = true;
            if (line.Equals("DATA", StringComparison.OrdinalIgnoreCase)) _asked = true;
        }
    }

    public void LogServer(byte[] buffer, int offset, int count)
    {
        foreach (var line in Encoding.Latin1.GetString(buffer, offset, count).Split("\r\n"))
            if (line.Length >= 3 && int.TryParse(line.AsSpan(0, 3), NumberStyles.None, CultureInfo.InvariantCulture, out var code)) Heard(code, line);
    }

    private void Heard(int code, string line)
    {
        (LastCode, LastWords) = (code, line);
        if (TextBegun && TextAnswer == 0) (TextAnswer, TextWords) = (code, line);
        else if (_asked && code == 354) TextBegun = true;
    }

    public void Dispose()
    {
    }
}
