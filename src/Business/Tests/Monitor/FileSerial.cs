using System.Text.RegularExpressions;

namespace MitigationOffice.Business.Tests.Monitor;

/// <summary>Finds the serial number in the lines that stand before a file's table.</summary>
public static partial class FileSerial
{
    public static List<string> In(IEnumerable<string> before) =>
        [.. before.Select(line => Said().Match(line)).Where(m => m.Success).Select(m => m.Groups["serial"].Value).Distinct(StringComparer.OrdinalIgnoreCase)];

    [GeneratedRegex(@"(serial(\s*(number|no\.?|nr\.?|#))?|\bs/n|\bsn)\s*[:=#\s]\s*(?<serial>[A-Za-z0-9][A-Za-z0-9\-_/.]*)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant, 200)]
    private static partial Regex Said();
}
