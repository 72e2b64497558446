using System.Reflection;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace MitigationOffice.Engineering.Tests;

/// <summary>
/// The library is read like a handbook, so its comments are checked:
/// <list type="bullet">
/// <item>every public type and member has a summary;</item>
/// <item>every public method that takes or gives a double or a decimal says "Range:" and "Source:" in its comment;</item>
/// <item>every public number (property, field, parameter, result) names its unit, or "dimensionless", in its comment.</item>
/// </list>
/// </summary>
public sealed partial class DocumentationTests
{
    private static readonly Assembly Library = typeof(Engine).Assembly;

    private static readonly Dictionary<string, XElement> Comments = XDocument.Load(Path.ChangeExtension(Library.Location, ".xml"))
        .Descendants("member").ToDictionary(member => member.Attribute("name")!.Value);

    [Fact]
    public void Every_public_type_and_member_has_a_summary() =>
        None(Types().Where(type => Summary(NameOf(type)) is null).Select(type => type.FullName!)
            .Concat(Members().Where(member => Summary(NameOf(member)) is null).Select(Said)));

    [Fact]
    public void Every_public_method_with_numbers_says_its_range_and_its_source() =>
        None(Methods().Where(method => IsNumber(method.ReturnType) || method.GetParameters().Any(p => IsNumber(p.ParameterType)))
            .Where(method => !Says(NameOf(method), "Range:") || !Says(NameOf(method), "Source:")).Select(Said));

    [Fact]
    public void Every_public_number_names_its_unit() => None(
        Members().OfType<PropertyInfo>().Where(p => IsNumber(p.PropertyType) && !NamesUnit(Summary(NameOf(p)))).Select(Said)
            .Concat(Members().OfType<FieldInfo>().Where(f => IsNumber(f.FieldType) && !NamesUnit(Summary(NameOf(f)))).Select(Said))
            .Concat(Methods().Where(m => IsNumber(m.ReturnType) && !NamesUnit(Summary(NameOf(m)) + " " + Part(NameOf(m), "returns"))).Select(m => Said(m) + " (result)"))
            .Concat(Callables().SelectMany(m => m.GetParameters().Where(p => IsNumber(p.ParameterType) && !NamesUnit(Parameter(m, p))).Select(p => Said(m) + " " + p.Name))));

    [Fact]
    public void The_check_itself_sees_a_missing_unit()
    {
        Assert.False(NamesUnit("How much it pulls."));
        Assert.True(NamesUnit("How much it pulls, Pa."));
        Assert.True(NamesUnit("Share, dimensionless."));
        Assert.NotEmpty(Callables());
        Assert.True(Members().Count() > 300);
    }

    private static void None(IEnumerable<string> wanting)
    {
        var all = wanting.Order(StringComparer.Ordinal).ToArray();
        Assert.True(all.Length == 0, $"Wanting in {all.Length} places:\n{string.Join('\n', all)}");
    }

    private static Type[] Types() => Library.GetExportedTypes();

    private static IEnumerable<MemberInfo> Members() => Types().SelectMany(type => type.GetMembers(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly))
        .Where(member => member is not Type && !IsMadeByTheCompiler(member));

    private static IEnumerable<MethodInfo> Methods() => Members().OfType<MethodInfo>();

    private static IEnumerable<MethodBase> Callables() => Members().OfType<MethodBase>();

    /// <summary>What a record, an enum or a property brings along by itself, and what only overrides object's own.</summary>
    private static bool IsMadeByTheCompiler(MemberInfo member) => member switch
    {
        MethodInfo method => (method.IsSpecialName && !method.Name.StartsWith("op_", StringComparison.Ordinal)) || Brought().IsMatch(method.Name)
            || (IsRecord(method.DeclaringType!) && method.Name is "op_Equality" or "op_Inequality"),
        ConstructorInfo constructor => constructor.GetParameters().Length == 0 || IsPrimary(constructor),
        FieldInfo field => field.IsSpecialName,
        PropertyInfo property => property.Name == "EqualityContract",
        _ => false,
    };

    private static bool IsRecord(Type type) => type.GetMethod("PrintMembers", BindingFlags.NonPublic | BindingFlags.Instance) is not null;

    /// <summary>A record's own constructor: its parameters are checked as the properties they become.</summary>
    private static bool IsPrimary(ConstructorInfo constructor) => IsRecord(constructor.DeclaringType!)
        && constructor.GetParameters().All(p => constructor.DeclaringType!.GetProperty(p.Name!) is { } property && property.PropertyType == p.ParameterType);

    private static bool IsNumber(Type type) => (Nullable.GetUnderlyingType(type) ?? type) is var t && (t == typeof(double) || t == typeof(decimal));

    private static string? Summary(string name) => Part(name, "summary");

    private static string? Part(string name, string part) => Comments.TryGetValue(name, out var member) && member.Element(part) is { } element && Text(element).Length > 0 ? Text(element) : null;

    private static string? Parameter(MethodBase method, ParameterInfo parameter) => Comments.TryGetValue(NameOf(method), out var member)
        ? member.Elements("param").Where(p => p.Attribute("name")?.Value == parameter.Name).Select(Text).FirstOrDefault()
        : null;

    private static string Text(XElement element) => string.Join(' ', element.Value.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static bool Says(string name, string words) => Comments.TryGetValue(name, out var member) && member.Value.Contains(words, StringComparison.Ordinal);

    private static bool NamesUnit(string? words) => words is not null && Units().IsMatch(words);

    private static string Said(MemberInfo member) => $"{member.DeclaringType!.FullName}.{member.Name}";

    private static string NameOf(MemberInfo member) => member switch
    {
        Type type => "T:" + FullName(type),
        PropertyInfo property => $"P:{FullName(property.DeclaringType!)}.{property.Name}{Arguments(property.GetIndexParameters())}",
        FieldInfo field => $"F:{FullName(field.DeclaringType!)}.{field.Name}",
        MethodBase method => $"M:{FullName(method.DeclaringType!)}.{method.Name.Replace('.', '#')}{Arguments(method.GetParameters())}{Conversion(method)}",
        _ => member.Name,
    };

    private static string Conversion(MethodBase method) =>
        method is MethodInfo { Name: "op_Implicit" or "op_Explicit" } conversion ? "~" + ArgumentName(conversion.ReturnType) : "";

    private static string Arguments(ParameterInfo[] parameters) => parameters.Length == 0 ? "" : $"({string.Join(',', parameters.Select(p => ArgumentName(p.ParameterType)))})";

    private static string ArgumentName(Type type) => type switch
    {
        { IsArray: true } => ArgumentName(type.GetElementType()!) + "[]",
        { IsGenericType: true } => $"{FullName(type.GetGenericTypeDefinition()).Split('`')[0]}{{{string.Join(',', type.GetGenericArguments().Select(ArgumentName))}}}",
        _ => FullName(type),
    };

    private static string FullName(Type type) => (type.FullName ?? type.Name).Replace('+', '.');

    [GeneratedRegex("^(Equals|GetHashCode|ToString|Deconstruct|<Clone>\\$|PrintMembers|CompareTo)$")]
    private static partial Regex Brought();

    /// <summary>The units of the handbook, as whole words; a number without one is dimensionless and says so.</summary>
    [GeneratedRegex("""
        (?<![\w])(dimensionless|Pa|Pa·s|Pa·s/m³|inWC|m|m²|m³/s|m³/\(s·Paⁿ\)|mm|in|inch|inches|ft|feet|ft²|°C|°F|K|°C·days|kg/m³|kg/kg|kg|g|J/kg|J/\(kg·K\)|W|W/m|W/m²|W/\(m·K\)|W/\(m²·K\)|m·K/W
        |m/s|fpm|kWh|cents|dollars|therms?|years?|days?|h|hours?|s|minutes?|dB\(A\)|pCi/L|Bq/m³|WLM|WL|percent|%|degrees|cfm|kg/day|kg/s|J|share)(?![\w])
        """, RegexOptions.IgnorePatternWhitespace)]
    private static partial Regex Units();
}
