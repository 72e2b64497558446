using System.Reflection;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering;

namespace MitigationOffice.Business.Tests.Structure;

/// <summary>The arrows of the house: who may know whom. Read from the compiled code, method bodies included.</summary>
public sealed class ArrowTests
{
    /// <summary>A subject may use the subjects before it, never one after it.</summary>
    private static readonly string[] Subjects =
        ["Customers", "Houses", "Diagnosis", "Design", "Quotes", "Work", "Systems", "Service", "Tests", "FollowUp", "StateReports", "Invoices", "Staff", "Quality"];

    private const string Root = "MitigationOffice.Business";
    private static readonly Assembly Business = typeof(OfficeDb).Assembly;

    [Fact]
    public void Engineering_knows_nothing_of_the_office()
    {
        var known = typeof(Engine).Assembly.GetReferencedAssemblies().Select(a => a.Name!).ToList();
        Assert.DoesNotContain(known, n => n.StartsWith("MitigationOffice", StringComparison.Ordinal) || n.StartsWith("Microsoft.", StringComparison.Ordinal));
    }

    [Fact]
    public void Business_knows_nothing_of_the_web()
    {
        var known = Business.GetReferencedAssemblies().Select(a => a.Name!).ToList();
        string[] allowed = ["Microsoft.AspNetCore.Identity.EntityFrameworkCore"];
        Assert.DoesNotContain(known, n => n == "MitigationOffice.Web" || (n.StartsWith("Microsoft.AspNetCore", StringComparison.Ordinal) && !allowed.Contains(n)));
    }

    [Fact]
    public void A_subject_uses_only_the_subjects_before_it()
    {
        var wrong = new List<string>();
        foreach (var type in Business.GetTypes())
        {
            var from = Array.IndexOf(Subjects, SubjectOf(type));
            if (from < 0) continue;
            wrong.AddRange(UsedBy(type).Select(used => (used, to: Array.IndexOf(Subjects, SubjectOf(used)))).Where(x => x.to > from)
                .Select(x => $"{type.FullName} uses {x.used.FullName}"));
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong.Distinct()));
    }

    [Fact]
    public void Documents_messages_and_the_shop_use_no_subject()
    {
        var wrong = from type in Business.GetTypes()
                    where SubjectOf(type) is "Documents" or "Messages" or "Shop"
                    from used in UsedBy(type)
                    where Subjects.Contains(SubjectOf(used))
                    select $"{type.FullName} uses {used.FullName}";
        Assert.Empty(wrong.Distinct());
    }

    [Fact]
    public void Every_folder_of_business_is_a_known_room()
    {
        var rooms = Business.GetTypes().Where(t => t.Namespace?.StartsWith(Root, StringComparison.Ordinal) == true).Select(SubjectOf).Distinct().Order();
        Assert.Empty(rooms.Except([.. Subjects, "Data", "Documents", "Messages", "Shop"]));
    }

    [Fact]
    public void Every_table_says_which_kind_of_truth_it_holds()
    {
        var silent = typeof(OfficeDb).GetProperties().Where(p => p.PropertyType.IsGenericType && p.DeclaringType == typeof(OfficeDb))
            .Select(p => p.PropertyType.GetGenericArguments()[0]).Where(t => t.GetCustomAttribute<HoldsAttribute>() is null);
        Assert.Empty(silent);
    }

    [Fact]
    public void The_reader_of_arrows_sees_inside_method_bodies()
    {
        Assert.Contains(typeof(System.Text.StringBuilder), UsedBy(typeof(SearchText)));
    }

    private static string SubjectOf(Type type) =>
        type.Namespace is { } ns && ns.StartsWith(Root + ".", StringComparison.Ordinal) ? ns[(Root.Length + 1)..].Split('.')[0] : "";

    private static HashSet<Type> UsedBy(Type type)
    {
        const BindingFlags All = BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;
        var seen = new HashSet<Type>();
        void See(Type? used)
        {
            if (used is null || used.IsGenericParameter) return;
            if (used.HasElementType) { See(used.GetElementType()); return; }
            if (!seen.Add(used.IsGenericType ? used.GetGenericTypeDefinition() : used)) return;
            if (used.IsGenericType) foreach (var argument in used.GetGenericArguments()) See(argument);
            See(used.DeclaringType);
        }

        See(type.BaseType);
        foreach (var field in type.GetFields(All)) See(field.FieldType);
        foreach (var property in type.GetProperties(All)) See(property.PropertyType);
        foreach (var method in type.GetMethods(All).Cast<MethodBase>().Concat(type.GetConstructors(All)))
        {
            foreach (var parameter in method.GetParameters()) See(parameter.ParameterType);
            if (method is MethodInfo info) See(info.ReturnType);
            if (method.GetMethodBody() is not { } body) continue;
            foreach (var local in body.LocalVariables) See(local.LocalType);
            foreach (var member in Called(method, body.GetILAsByteArray() ?? [])) See(member as Type ?? member.DeclaringType);
        }

        return seen;
    }

    private static IEnumerable<MemberInfo> Called(MethodBase method, byte[] code)
    {
        var typeArguments = method.DeclaringType is { IsGenericType: true } t ? t.GetGenericArguments() : null;
        var methodArguments = method.IsGenericMethod ? method.GetGenericArguments() : null;
        foreach (var token in Intermediate.Tokens(code))
            if (method.Module.ResolveMember(token, typeArguments, methodArguments) is { } member)
                yield return member;
    }
}
